"""The answer of a sync as JSON. Events go out as the text they were stored as, so the answer is put together around them."""
from rest_framework.renderers import JSONRenderer


class SyncRenderer(JSONRenderer):
    def render(self, data, accepted_media_type=None, renderer_context=None) -> bytes:
        if not isinstance(data, dict) or "builds" not in data:
            return super().render(data, accepted_media_type, renderer_context)
        rest = self._plain({name: value for name, value in data.items() if name != "builds"})
        builds = b",".join(self._plain(key) + b":" + self._build(build) for key, build in data["builds"].items())
        return rest[:-1] + b',"builds":{' + builds + b"}}"

    def _build(self, build: dict) -> bytes:
        rest = self._plain({name: value for name, value in build.items() if name != "events"})
        return rest[:-1] + b',"events":[' + ",".join(build["events"]).encode() + b"]}"

    def _plain(self, value: object) -> bytes:
        return super().render(value)
