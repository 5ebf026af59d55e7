from rest_framework import serializers


class LoginRequest(serializers.Serializer):
    name = serializers.CharField(max_length=150)
    password = serializers.CharField(max_length=200, trim_whitespace=False)
    dev = serializers.RegexField(r"^[0-9a-f]{32}$")
    label = serializers.CharField(max_length=80, allow_blank=True, default="")


class PersonOut(serializers.Serializer):
    id = serializers.CharField()
    name = serializers.CharField()
    role = serializers.CharField()


class ShopOut(serializers.Serializer):
    id = serializers.CharField()
    name = serializers.CharField()


class LoginAnswer(serializers.Serializer):
    token = serializers.CharField()
    expires = serializers.IntegerField(help_text="ms since 1970")
    person = PersonOut()
    shop = ShopOut()


class Problem(serializers.Serializer):
    error = serializers.CharField(help_text="One sentence: what, where, what to do.")


class LoginProblem(Problem):
    afresh = serializers.BooleanField(required=False, help_text="True where this phone holds a demo shop that was begun afresh since.")


class PersonNews(serializers.Serializer):
    name = serializers.CharField()
    role = serializers.CharField()
