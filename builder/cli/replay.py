"""`rinsebook replay`: stories of seasons, played through the reference or a workbook."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from builder.cli.options import Force, Json, Lang, pick_language, print_json
from builder.cli.terminal import tell_work
from builder.counts import tell_count
from builder.problems import EXIT_FAULT, EXIT_FINE
from builder.replay.engine import Engine
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec

if TYPE_CHECKING:
    from builder.replay.story import Story


class Rows(StrEnum):
    """How long the log of a workbook is."""

    FULL = "full"
    SHORT = "short"


def replay(
    stories: Annotated[list[Path], typer.Argument(metavar="STORY.toml…", help="Stories to play.")],
    *,
    engine: Annotated[Engine, typer.Option("--engine", help="What plays them.")] = Engine.REFERENCE,
    rows: Annotated[
        Rows, typer.Option("--rows", help="Log of the workbook: whole, or as long as a story.")
    ] = Rows.FULL,
    book: Annotated[
        Path | None,
        typer.Option("--book", metavar="FILE.xlsx", help="Write the filled workbook of one story."),
    ] = None,
    lang: Lang = None,
    as_json: Json = False,
    force: Force = False,
) -> None:
    """Play stories of seasons, and tell where they differ."""
    from builder.replay.replay import replay as play
    from builder.replay.story import demand_words, read_stories

    spec = load_spec(find_specs())
    lang = pick_language(lang, spec)
    read = read_stories(stories, spec)
    if book:
        show_book(read, book, spec, lang, force=force)
    with tell_work(f"playing {tell_count(read, 'season')}"):
        played = list(play(read, spec, engine, lang, short=rows == Rows.SHORT))
    differences = [str(found) for one in played for found in one.differences]
    if as_json:
        told = [one.to_json(list(demand_words(spec).told)) for one in played]
        print_json(told[0] if len(told) == 1 else told)
    lines = [
        *differences,
        f"{tell_count(played, 'season')}, {tell_count(differences, 'difference')}",
    ]
    print("\n".join(lines), file=sys.stderr if as_json else sys.stdout)
    raise typer.Exit(EXIT_FAULT if differences else EXIT_FINE)


def show_book(stories: list["Story"], path: Path, spec: Spec, lang: str, *, force: bool) -> None:
    """Write the filled workbook of one story."""
    from builder.exchange.output import demand_folder, refuse_existing, write_file
    from builder.replay.book import build_story

    if len(stories) > 1:
        text = f"{len(stories)} stories, but a book shows one."
        raise typer.BadParameter(text, param_hint="--book")
    demand_folder(path.parent)
    if not force:
        refuse_existing(path)
    with tell_work(f"writing {path.name}"):
        write_file(path, build_story(stories[0], spec, lang))
