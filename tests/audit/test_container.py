"""Files that are refused before anything in them is parsed, and parts that should not be there."""

import tracemalloc
from pathlib import Path

import pytest
from proof.hostile_zip import bomb

from audit.edits import swap
from audit.strict import make_strict
from builder.audit.container import read_parts
from builder.problems import UserError


def test_damaged_xml_is_refused_without_a_traceback(audit, fresh) -> None:
    with pytest.raises(UserError, match="is damaged"):
        audit(swap(fresh, "xl/workbook.xml", "<sheets>", "<sheets"))


def test_a_part_is_unpacked_no_further_than_its_entry_tells(tmp_path: Path) -> None:
    path = tmp_path / "lying.xlsx"
    path.write_bytes(bomb(1_000_000, 2_000))
    tracemalloc.start()
    with pytest.raises(UserError):
        read_parts(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 50_000_000


def test_a_relation_to_something_outside_is_a_fault_and_a_link_to_follow_is_none(
    audit, fresh
) -> None:
    part, end = "xl/_rels/workbook.xml.rels", "</Relationships>"
    line = '<Relationship Id="r99" Type="x/{}" Target="http://127.0.0.1/" TargetMode="{}"/>'
    outside = swap(fresh, part, end, line.format("externalLink", "Ext&#101;rnal") + end)
    told = f"the file asks for something outside of it (externalLink in {part}), expected nothing"
    assert [str(fault) for fault in audit(outside).faults] == [told]
    assert audit(swap(fresh, part, end, line.format("hyperlink", "External") + end)).faults == []


@pytest.mark.parametrize("ending", ["", "workbook.xml", "sheet1.xml", "workbook.xml.rels"])
def test_a_workbook_of_the_strict_form_is_refused_in_words_that_tell_what_to_do(
    audit, fresh, ending: str
) -> None:
    with pytest.raises(UserError, match=r"strict Open XML.* save it as \.xlsx of the") as raised:
        audit(make_strict(fresh, ending))
    assert raised.value.exit_code == 4
