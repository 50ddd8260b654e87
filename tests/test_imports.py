"""Every module can be imported first, in a fresh interpreter: no two of them wait for one another.

The order in which Python would run the import statements is followed on the syntax trees, for each module as the
first one; 700 interpreters would take minutes. A name that is asked of a module which is still being imported, and
which that module has not defined yet, is the error that Python would raise.
"""

from __future__ import annotations

import ast
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "dictate"


@dataclass(frozen=True)
class Import:
    """One import statement: the module that is named, and the names that are asked of it."""

    module: str
    names: tuple[str, ...] = ()


@dataclass
class Loading:
    """The modules that are imported so far, with the names that each defines, and what failed."""

    defined: dict[str, set[str]] = field(default_factory=dict)
    done: set[str] = field(default_factory=set)
    failed: list[str] = field(default_factory=list)


def _name(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@cache
def modules() -> dict[str, list[str | Import]]:
    """Return for each module of the package what it does in order: names that it defines, and its imports."""
    return {_name(path): _events(ast.parse(path.read_text("utf-8")).body) for path in PACKAGE.rglob("*.py")}


def _events(body: list[ast.stmt]) -> list[str | Import]:
    out: list[str | Import] = []
    for node in body:
        match node:
            case ast.FunctionDef(name=name) | ast.AsyncFunctionDef(name=name) | ast.ClassDef(name=name):
                out.append(name)
            case ast.Import(names=names):
                out += [Import(x.name) for x in names]
            case ast.ImportFrom(module=str(module), names=names):
                out.append(Import(module, tuple(x.name for x in names)))
                out += [x.asname or x.name for x in names]
            case ast.If(test=ast.Name(id="TYPE_CHECKING")):
                pass
            case ast.If(body=inner, orelse=other):
                out += _events([*inner, *other])
            case ast.Try(body=inner, orelse=other, finalbody=last):
                out += _events([*inner, *other, *last])
            case ast.Assign(targets=targets):
                out += [x.id for t in targets for x in ast.walk(t) if isinstance(x, ast.Name)]
            case ast.AnnAssign(target=ast.Name(id=name)):
                out.append(name)
    return out


def load(module: str, state: Loading, known: dict[str, list[str | Import]]) -> None:
    """Import a module as Python would: its packages first, then its statements one after the other."""
    if module not in known or module in state.defined:
        return
    if "." in module:
        load(module.rpartition(".")[0], state, known)
        if module in state.defined:
            return
    state.defined[module] = set()
    for event in known[module]:
        if isinstance(event, str):
            state.defined[module].add(event)
            continue
        load(event.module, state, known)
        for name in event.names:
            inner = f"{event.module}.{name}"
            if inner in known:
                load(inner, state, known)
            elif event.module not in state.done and name not in state.defined.get(event.module, {name}):
                state.failed.append(f"{module} asks {event.module} for {name}, which is not there yet")
    state.done.add(module)


def first(module: str, known: dict[str, list[str | Import]]) -> list[str]:
    """Return what fails when a module is the first of the package to be imported."""
    state = Loading()
    load(module, state, known)
    return state.failed


def test_each_module_can_be_the_first_to_be_imported() -> None:
    known = modules()
    assert len(known) > 500
    failed = {module: found for module in known if (found := first(module, known))}
    assert failed == {}


def test_two_modules_that_wait_for_one_another_are_found() -> None:
    known: dict[str, list[str | Import]] = {
        "p": [],
        "p.a": [Import("p.b", ("x",)), "y"],
        "p.b": [Import("p.a", ("y",)), "x"],
        "p.c": [Import("p.b", ("x",))],
    }
    assert first("p.a", known) == ["p.b asks p.a for y, which is not there yet"]
    assert first("p.c", known) == ["p.a asks p.b for x, which is not there yet"]
