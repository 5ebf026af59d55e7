"""The services that the other suites stand on do start, are empty, and go away."""

import pytest

from tests.services.processes import port_answers

pytestmark = pytest.mark.services


def test_postgres_gives_empty_databases(postgres):
    import psycopg

    first, second = postgres.new_database(), postgres.new_database()
    assert first != second
    with psycopg.connect(first) as connection:
        connection.execute("CREATE TABLE bench (reading bigint)")
    with psycopg.connect(second) as connection:
        assert connection.execute("SELECT count(*) FROM pg_tables WHERE tablename = 'bench'").fetchone() == (0,)


def test_redis_forgets_when_flushed(redis_server):
    import redis

    client = redis.Redis.from_url(redis_server.url)
    client.set("reading", "2.2")
    assert client.get("reading") == b"2.2"
    redis_server.flush()
    assert client.get("reading") is None


def test_redis_can_be_taken_away_and_brought_back(redis_server):
    redis_server.process.stop()
    assert not port_answers(redis_server.port)
    redis_server.start()
    assert port_answers(redis_server.port)
