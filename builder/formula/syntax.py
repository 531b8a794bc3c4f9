"""Reads a formula into a tree, in the spreadsheet's order of operators: -2^2 is 4."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from openpyxl.formula.tokenizer import Token, TokenizerError

from builder.formula.tokens import split


@dataclass(frozen=True, slots=True)
class Number:
    """A number as it stands in the formula."""

    text: str


@dataclass(frozen=True, slots=True)
class Words:
    """A text in double quotes, without them."""

    text: str


@dataclass(frozen=True, slots=True)
class Operand:
    """The name of a quantity."""

    text: str


@dataclass(frozen=True, slots=True)
class Sign:
    """A plus or minus in front of something."""

    sign: str
    inner: "Node"


@dataclass(frozen=True, slots=True)
class Pair:
    """Two things with an operator between them."""

    sign: str
    left: "Node"
    right: "Node"


@dataclass(frozen=True, slots=True)
class Call:
    """A function and its arguments."""

    function: str
    arguments: tuple["Node", ...]


Node = Number | Words | Operand | Sign | Pair | Call
COMPARISONS = frozenset({"=", "<>", "<", ">", "<=", ">="})
RANKS = {"^": 4, "*": 3, "/": 3, "+": 2, "-": 2} | dict.fromkeys(COMPARISONS, 1)


class FormulaError(ValueError):
    """Says why a formula cannot be read."""


@lru_cache(maxsize=4096)
def parse(formula: str) -> Node:
    """Return the tree of a formula, or raise FormulaError."""
    try:
        tokens = [token for token in split(formula) if token.type != Token.WSPACE]
    except (TokenizerError, IndexError) as error:
        raise FormulaError("brackets or quotes do not match") from error
    parser = Parser(tokens)
    tree = parser.read(0)
    if parser.tokens:
        raise FormulaError(f"{parser.tokens[0].value!r} is not expected there")
    return tree


def walk(node: Node) -> Iterator[Node]:
    """Yield a tree's nodes, the outer ones first."""
    yield node
    for inner in find_inner(node):
        yield from walk(inner)


def find_inner(node: Node) -> tuple[Node, ...]:
    """Return the nodes right under a node."""
    match node:
        case Sign(_, inner):
            return (inner,)
        case Pair(_, left, right):
            return (left, right)
        case Call(_, arguments):
            return arguments
        case _:
            return ()


class Parser:
    """Takes tokens from the front and returns trees."""

    def __init__(self, tokens: list[Token]) -> None:
        """Keep the tokens that are still to be read."""
        self.tokens = tokens

    def peek(self) -> Token | None:
        """Return the next token without taking it."""
        return self.tokens[0] if self.tokens else None

    def take(self) -> Token:
        """Return the next token and drop it."""
        if not self.tokens:
            raise FormulaError("it ends too early")
        return self.tokens.pop(0)

    def read(self, rank: int) -> Node:
        """Read as far as operators bind tighter than `rank`; all of them group to the left."""
        left = self.read_operand()
        while (token := self.peek()) and token.type == Token.OP_IN:
            if token.value not in RANKS:
                raise FormulaError(f"operator {token.value!r} is not allowed")
            if RANKS[token.value] <= rank:
                break
            self.take()
            left = Pair(token.value, left, self.read(RANKS[token.value]))
        return left

    def read_operand(self) -> Node:
        """Read a number, text, name, function, bracket, or one of them behind a sign."""
        token = self.take()
        if token.type == Token.OP_PRE:
            return Sign(token.value, self.read_operand())
        if token.type == Token.FUNC and token.subtype == Token.OPEN:
            return Call(token.value.rstrip("("), tuple(self.read_arguments()))
        if token.type == Token.PAREN and token.subtype == Token.OPEN:
            inner = self.read(0)
            self.close()
            return inner
        if token.type == Token.OPERAND:
            return read_leaf(token)
        raise FormulaError(f"{token.value!r} is not expected there")

    def read_arguments(self) -> Iterator[Node]:
        """Read arguments up to the closing bracket."""
        following = self.peek()
        if following and following.subtype == Token.CLOSE:
            self.take()
            return
        yield self.read(0)
        while (token := self.peek()) and token.type == Token.SEP and token.subtype == Token.ARG:
            self.take()
            yield self.read(0)
        self.close()

    def close(self) -> None:
        """Take a closing bracket."""
        token = self.take()
        if token.subtype != Token.CLOSE:
            raise FormulaError(f"{token.value!r} stands where a bracket should close")


def read_leaf(token: Token) -> Node:
    """Return a number, a text or a name."""
    if token.subtype == Token.NUMBER:
        return Number(token.value)
    if token.subtype == Token.TEXT:
        return Words(token.value[1:-1].replace('""', '"'))
    if token.subtype == Token.RANGE:
        return Operand(token.value)
    raise FormulaError(f"{token.value} is not allowed")
