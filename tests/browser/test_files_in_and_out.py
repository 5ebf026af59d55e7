"""Entries as a file, from a phone that cannot reach the server to one that can."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from .hand import Hand

pytestmark = pytest.mark.browser


@pytest.fixture
def exported(embedded_server, new_phone, tmp_path):
    """What the builder recorded with the server out of reach, as the file his phone saved. The server is out of reach still."""
    marek = Hand(new_phone().new_page(), str(embedded_server))
    marek.logs_in("marek", "marek-bench")
    marek.is_offline_safe()
    ines = Hand(new_phone().new_page(), str(embedded_server))
    ines.logs_in("ines", "ines-bench")
    ines.page.goto(f"{embedded_server}/#/settings")
    expect(ines.at("import")).to_be_attached()
    embedded_server.stop()
    marek.opens("journals")
    marek.reads("2.4480")
    marek.page.goto(f"{embedded_server}/#/settings")
    with marek.page.expect_download() as download:
        marek.at("export").tap()
    path = tmp_path / download.value.suggested_filename
    download.value.save_as(path)
    marek.page.context.close()
    yield ines, path
    embedded_server.start()


def test_out_of_one_phone_and_in_by_another_when_there_is_a_network(embedded_server, exported):
    ines, path = exported
    assert path.suffix == ".jsonl"
    ines.at("import").set_input_files(path)
    expect(ines.at("import-trouble")).to_contain_text("was not sent; nothing of it is lost")
    embedded_server.start()
    ines.at("import-again").tap()
    expect(ines.at("import-said")).to_contain_text("entries taken in")
    expect(ines.at("import-again")).to_have_count(0)
    ines.opens("journals")
    expect(ines.page.locator(".plan .done")).to_have_count(1)

    ines.page.goto(f"{embedded_server}/#/settings")
    ines.at("import").set_input_files(path)
    expect(ines.at("import-said")).to_contain_text("were here already")
    path.write_text(path.read_text()[:-40])
    ines.at("import").set_input_files(path)
    expect(ines.at("import-trouble")).to_contain_text("is not whole. Export the file again on the phone.")
    expect(ines.at("import-again")).to_have_count(0)
