"""`rinsebook replay`: stories of seasons, played through the reference or a workbook."""

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.options import Force, Json, Lang, pick_language, print_json
from builder.cli.terminal import tell_work
from builder.counts import tell_count
from builder.problems import EXIT_FAULT, EXIT_FINE
from builder.replay.engine import Engine
from builder.spec.load import find_specs, load_spec


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
    """Play stories of seasons, and compare what they tell with what they expect."""
    from builder.exchange.output import refuse_existing, write_file
    from builder.replay.book import build_story
    from builder.replay.replay import replay as play
    from builder.replay.story import demand_words, read_stories

    if book and len(stories) > 1:
        text = f"{len(stories)} stories, but one book shows one."
        raise typer.BadParameter(text, param_hint="--book")
    if book and not force:
        refuse_existing(book)
    spec = load_spec(find_specs())
    lang = pick_language(lang, spec)
    read = read_stories(stories, spec)
    if book:
        with tell_work(f"writing {book.name}"):
            write_file(book, build_story(read[0], spec, lang))
    with tell_work(f"playing {tell_count(read, 'story')}"):
        played = list(play(read, spec, engine, lang, short=rows == Rows.SHORT))
    differences = [str(found) for one in played for found in one.differences]
    if as_json:
        told = [one.to_json(list(demand_words(spec).told)) for one in played]
        print_json(told[0] if len(told) == 1 else told)
        print("".join(f"{line}\n" for line in differences), end="", file=sys.stderr)
    else:
        print("\n".join([*differences, f"{len(played)} played, {len(differences)} differences"]))
    raise typer.Exit(EXIT_FAULT if differences else EXIT_FINE)
