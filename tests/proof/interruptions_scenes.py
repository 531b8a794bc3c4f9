"""What may be found after a command was killed: each file whole old or whole new."""

import io
import re
import shutil
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

Files = dict[str, bytes]

# What a killed run may leave: the next one removes it.
ASIDE = re.compile(
    r"\.[^/]+\.rinsebook(/.*)?|\.roster\.lock|\.manifest\.part|[^/.][^/]*\.unfinished"
)
DATES = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*")


@dataclass(frozen=True, slots=True)
class Scene:
    """Files that stand before a command, those of an uninterrupted run, and its exit code.

    Several files of one run belong together; where a killed run leaves files of two, `mark` stands.
    """

    name: str
    arguments: list[str]
    folder: Path
    old: Files
    new: Files
    code: int
    mark: str

    def reset(self) -> None:
        shutil.rmtree(self.folder, ignore_errors=True)
        self.folder.mkdir()
        for name, content in self.old.items():
            (self.folder / name).write_bytes(content)

    def judge(self, found: Files) -> Iterator[str]:
        """Yield what is among files that a killed run has left and should not be."""
        yield from judge_each(found, self.old, self.new)
        yield from judge_together(found, self.old, self.new, self.mark)

    def judge_end(self, code: int | None) -> Iterator[str]:
        """Yield where a run to the end differs from one that nothing came before."""
        if code != self.code:
            yield f"the next run ends with {code}"
        found = read_folder(self.folder)
        for name in sorted(set(found) | set(self.new)):
            if name not in self.new:
                yield f"{name} stays after the next run"
            elif name not in found or not is_same(name, found[name], self.new[name]):
                yield f"{name} is another after the next run"


def read_folder(folder: Path) -> Files:
    """Return the files below a folder, and folders as files without content."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else b""
        for path in sorted(folder.rglob("*"))
    }


def outline(files: Files) -> frozenset[tuple[str, bytes]]:
    """Return what the next run depends on: what stands there, not what lies in folders aside."""
    return frozenset((name, content) for name, content in files.items() if "/" not in name)


def judge_each(found: Files, old: Files, new: Files) -> Iterator[str]:
    """Yield the files that are neither whole old nor whole new."""
    for name, content in found.items():
        wanted = [files[name] for files in (old, new) if name in files]
        if not wanted and not ASIDE.fullmatch(name):
            yield f"{name} is left"
        elif wanted and not any(is_same(name, content, one) for one in wanted):
            yield f"{name} is neither whole old nor whole new"
    yield from (f"{name} is gone" for name in old if name not in found)


def judge_together(found: Files, old: Files, new: Files, mark: str) -> Iterator[str]:
    """Yield a mark that lacks where there are files of two runs."""
    changed = [name for name in new if name not in old or not is_same(name, old[name], new[name])]
    done = [name for name in changed if name in found and is_same(name, found[name], new[name])]
    if 0 < len(done) < len(changed) and mark not in found:
        yield f"only {', '.join(done)} of {len(changed)} files are new, and nothing says so"


def is_same(name: str, one: bytes, other: bytes) -> bool:
    """Tell whether files are the same, whenever they were made, and by one run or by two."""
    if name == "manifest.csv":
        return one.replace(b",kept,", b",built,") == other.replace(b",kept,", b",built,")
    if one == other or not name.endswith(".xlsx"):
        return one == other
    try:
        return read_parts(one) == read_parts(other)
    except zipfile.BadZipFile:
        return False


def read_parts(content: bytes) -> Files:
    """Return the parts of a workbook without dates."""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: DATES.sub(rb"\1", archive.read(name)) for name in archive.namelist()}
