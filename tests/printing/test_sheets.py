"""Where staves are: on each page that is made, in no mail and not in the database; with a mail goes the page that has them."""

import pytest
from support.mails import read
from support.outbox import posting_studio

BODY = "Scales: {D major}\nLovely {chord F#7}!\nPrivate: {Db major} is too hard\n"
STAFF = "<svg role="


def mail_of(posted):
    (parcel,) = posted.send().carried
    return read(parcel.documents[0].content)


def test_a_mail_says_the_words_and_its_page_goes_along_with_the_staves(tmp_path, has_verovio):
    with posting_studio(tmp_path / "studio") as posted:
        posted.finish("Mireille", "Perreault", BODY)
        (kept,) = posted.entries()
        assert "<svg" not in kept.page
        found = mail_of(posted)
    assert "= D E F♯ G A B C♯ D" in found.plain
    assert "= D E F♯ G A B C♯ D" in found.page
    assert "<svg" not in found.page
    assert "staves" not in found.page
    files = [part for part in found.ours.iter_attachments() if part.get_content_subtype() == "html"]
    assert len(files) == has_verovio
    for sheet in files:
        assert sheet.get_content().count(STAFF) == 2
        assert "<title>D E F♯ G A B C♯ D · 2 sharps: F♯ C♯</title>" in sheet.get_content()
        assert "D♭" not in sheet.get_content()
        assert sheet.get_filename().endswith(".html")


@pytest.mark.parametrize("way", ["draft", "folder"])
def test_the_page_of_a_draft_and_in_a_folder_has_them(tmp_path, way, has_verovio):
    folder = tmp_path / "families"
    with posting_studio(tmp_path / "studio", way, f'folder = "{folder}"') as posted:
        posted.finish("Mireille", "Perreault", BODY)
        (parcel,) = posted.send().carried
    page = parcel.documents[0].content
    if way == "draft":
        page = next(read(page).ours.iter_attachments()).get_content().encode()
    assert page.count(STAFF.encode()) == 2 * has_verovio


def test_a_mail_without_theory_has_no_page_beside_its_words(tmp_path):
    with posting_studio(tmp_path / "studio") as posted:
        posted.finish("Mireille", "Perreault", "Scales: D major\n")
        assert "html" not in {each.get_content_subtype() for each in mail_of(posted).ours.iter_attachments()}
