"""Markdown as a reader of it takes it: what was typed by people is read as it stands."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from cuttings.show.markdown import escaped, heading, items, picture, table
from cuttings.show.plain import clean

NASTY = [
    "<script>alert(1)</script>", "*bold* and _leaning_", "`code`", "[text](http://x.example)", "![p](x.png)",
    "# heading", "- item", "+ item", "1. item", "12) item", "> quote", "| a | b |", "~~gone~~", "&amp;",
    "\\*", "---", "===", "https://x.example", "www.x.example", "a\nb\n\n# c", "$x$", "{% x %}", "<!-- x -->",
]  # fmt: skip
typed = st.text(max_size=40) | st.text(alphabet="*_`[]()<>#+-.!|~&\\ \n1a:/", max_size=30)


def read(text: str) -> list[Token]:
    """Every piece of a text, by the general rules with tables and struck-out text."""
    found: list[Token] = []
    for token in MarkdownIt("commonmark").enable(["table", "strikethrough"]).parse(text):
        found += [token, *(token.children or [])]
    return found


def kinds(text: str) -> set[str]:
    return {token.type for token in read(text)}


def words(text: str) -> str:
    return "".join(token.content for token in read(text) if token.type in ("text", "text_special"))


def as_it_reads(text: str) -> str:
    return " ".join(clean(text).split())


@pytest.mark.parametrize("text", NASTY)
def test_what_was_typed_is_read_as_it_stands(text: str) -> None:
    assert kinds(escaped(text)) <= {"paragraph_open", "inline", "text", "text_special", "paragraph_close"}
    assert words(escaped(text)) == as_it_reads(text)


@given(typed)
def test_nothing_that_is_typed_is_markup(text: str) -> None:
    assert kinds(escaped(text)) <= {"paragraph_open", "inline", "text", "text_special", "paragraph_close"}
    assert words(escaped(text)) == as_it_reads(text)


@given(typed, typed)
def test_a_list_has_as_many_items_as_it_was_given(first: str, second: str) -> None:
    text = items([[f"a{first}", f"b{second}"], [f"c{second}"]])
    tokens = [token.type for token in read(text)]
    assert tokens.count("list_item_open") == 2
    assert not {"heading_open", "html_block", "html_inline", "link_open", "em_open"} & set(tokens)


def test_a_numbered_list_counts() -> None:
    assert items([["one", "why"], ["two"]], numbered=True) == "1. one  \n   why\n2. two"


@given(typed)
def test_a_table_keeps_its_columns(text: str) -> None:
    tokens = read(table(("Plant", "Stems"), [[f"a{text}", "3"], ["box", "12"]]))
    assert sum(token.type == "tr_open" for token in tokens) == 3
    assert sum(token.type == "td_open" for token in tokens) == 4


def test_numbers_stand_to_the_right() -> None:
    assert table(("Plant", "Stems"), [["box", "3"]]) == "| Plant | Stems |\n| --- | ---: |\n| box | 3 |"


def test_a_heading_is_one_line() -> None:
    tokens = read(heading(2, "a\n# b"))
    assert [token.type for token in tokens].count("heading_open") == 1
    assert words(heading(2, "a\n# b")) == "a # b"


@pytest.mark.parametrize(
    "path", ["year.svg", "my charts/a (b).svg", "odd)name.svg", "javascript:x", "a<b>.svg"]
)
def test_a_picture_is_a_picture_whatever_its_file_is_called(path: str) -> None:
    (image,) = [token for token in read(picture("charts]", path)) if token.type == "image"]
    assert ":" not in str(image.attrs["src"])
