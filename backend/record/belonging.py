"""Law: an event's build and person are there, and stay there.

On PostgreSQL a foreign key asks once for each event and column, a tenth of a push. These triggers ask once for each build and
person of a batch, take the same lock on them, and refuse with the same error; so there they stand in for the keys. SQLite
keeps its keys.
"""
EVENTS = "record_event"
PARENTS = {"build_id": "record_build", "person_id": "shop_person"}


def install(conn) -> None:
    """Instead of the foreign keys, which go."""
    with conn.cursor() as cursor:
        for name in _foreign_keys(conn, cursor):
            cursor.execute(f"ALTER TABLE {EVENTS} DROP CONSTRAINT {conn.ops.quote_name(name)}")
        for column, parent in PARENTS.items():
            for statement in _statements(column, parent):
                cursor.execute(statement)


def remove(conn) -> None:
    """The foreign keys come back."""
    with conn.cursor() as cursor:
        for column, parent in PARENTS.items():
            cursor.execute(f"DROP FUNCTION {EVENTS}_{column}_there() CASCADE")
            cursor.execute(f"DROP FUNCTION {EVENTS}_{column}_stays() CASCADE")
            cursor.execute(f"ALTER TABLE {EVENTS} ADD FOREIGN KEY ({column}) REFERENCES {parent} DEFERRABLE INITIALLY DEFERRED")


def _foreign_keys(conn, cursor) -> list[str]:
    found = conn.introspection.get_constraints(cursor, EVENTS)
    return [name for name, about in found.items() if about["foreign_key"]]


def _statements(column: str, parent: str) -> list[str]:
    there, stays = f"{EVENTS}_{column}_there", f"{EVENTS}_{column}_stays"
    return [
        f"""CREATE FUNCTION {there}() RETURNS trigger LANGUAGE plpgsql AS $$
        DECLARE asked bigint;
        BEGIN
            FOR asked IN SELECT DISTINCT {column} FROM fresh LOOP
                PERFORM 1 FROM {parent} WHERE id = asked FOR KEY SHARE;
                IF NOT FOUND THEN
                    RAISE EXCEPTION 'no % in {parent}', asked USING ERRCODE = 'foreign_key_violation';
                END IF;
            END LOOP;
            RETURN NULL;
        END $$""",
        f"""CREATE TRIGGER {there} AFTER INSERT ON {EVENTS} REFERENCING NEW TABLE AS fresh
        FOR EACH STATEMENT EXECUTE FUNCTION {there}()""",
        f"""CREATE FUNCTION {stays}() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF EXISTS (SELECT 1 FROM {EVENTS} WHERE {column} = OLD.id) THEN
                RAISE EXCEPTION 'events refer to % in {parent}', OLD.id USING ERRCODE = 'foreign_key_violation';
            END IF;
            RETURN NULL;
        END $$""",
        # Whoever held the row has stored his events by the time it runs, and they are seen.
        f"CREATE TRIGGER {stays} AFTER DELETE OR UPDATE OF id ON {parent} FOR EACH ROW EXECUTE FUNCTION {stays}()",
    ]
