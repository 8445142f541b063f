"""The plan of the house: which part may import which, and what the core may never do."""

import ast
from collections.abc import Iterator, Mapping
from graphlib import TopologicalSorter
from pathlib import Path

import pytest
from attrs import frozen

import cuttings

HOUSE = Path(cuttings.__file__).parent

MAY_IMPORT: Mapping[str, set[str]] = {
    "words": set(),
    "errors": set(),
    "units": {"words"},
    "dates": set(),
    "climate": {"dates", "units", "words"},
    "plants": {"words"},
    "ledger": {"dates", "errors", "words"},
    "rules": {"climate", "plants", "dates", "units", "words"},
    "placement": {"rules", "climate", "plants", "ledger", "dates", "units", "words"},
    "nudges": {"takes", "rules", "climate", "plants", "ledger", "dates", "units", "words"},
    "takes": {"rules", "climate", "plants", "ledger", "dates", "units", "words"},
    "exchange": {"nudges", "rules", "climate", "plants", "ledger", "dates", "units", "words", "errors"},
    "show": {"units", "dates", "words"},
    "ask": {"show", "units", "dates", "words", "errors"},
    "demo": {"ledger", "words", "dates"},
    "commands": {
        "show", "ask", "demo", "nudges", "placement", "takes", "exchange", "rules", "climate", "plants",
        "ledger", "dates", "units", "words", "errors",
    },
    "app": {"commands", "ask", "errors", ""},
    "__main__": {"app"},
}  # fmt: skip
"""For each part of the package, the other parts it may import. The arrows never run in a circle.

Ledger, climate and plants know nothing of one another; the rules know nothing of the ledger; the
parts that advise know nothing of one another, but for the nudges, which go by what ``takes`` has learned.
``""`` is the package itself.
"""

CALLED_BACK = {("commands", "app")}
"""Arrows that may only be drawn while a function runs: a command that runs another one."""

ONLY_THERE: Mapping[str, set[str]] = {
    "tinydb": {"ledger/journal.py", "ledger/store.py"},
    "filelock": {"ledger/store.py"},
    "questionary": {"ask/prompts.py"},
    "prompt_toolkit": {"ask/prompts.py"},
}
"""Libraries that only these modules may import."""

CORE = ("ledger", "plants", "climate", "rules", "placement", "nudges", "takes")
READS_AND_WRITES = {
    "ledger/journal.py",
    "ledger/store.py",
    "ledger/ids.py",
    "plants/files.py",
    "plants/standard.py",
    "plants/__main__.py",
}
"""Modules of the core that may use the outside: they read, write, or draw lots for an entry's id."""

OUTSIDE = {"os", "sys", "pathlib", "time", "random", "io", "shutil", "socket", "subprocess", "tempfile"}
CLOCKS = {"today", "now", "utcnow"}
DOORS = {"print", "open", "input"}


@frozen
class Import:
    """One import statement: who imports what, on which line, and whether only when called."""

    module: str
    target: str
    line: int
    lazy: bool

    def __str__(self) -> str:
        return f"cuttings/{self.module}:{self.line} imports {self.target}"


def _modules() -> list[str]:
    return sorted(path.relative_to(HOUSE).as_posix() for path in HOUSE.rglob("*.py"))


def _tree(module: str) -> ast.Module:
    return ast.parse((HOUSE / module).read_text(encoding="utf-8"))


def _imports(module: str) -> Iterator[Import]:
    yield from _walk(module, _tree(module), lazy=False)


def _walk(module: str, node: ast.AST, *, lazy: bool) -> Iterator[Import]:
    for child in ast.iter_child_nodes(node):
        match child:
            case ast.Import():
                for alias in child.names:
                    yield Import(module, alias.name, child.lineno, lazy)
            case ast.ImportFrom():
                assert child.level == 0, f"cuttings/{module}:{child.lineno} imports relatively"
                for alias in child.names:
                    yield Import(module, f"{child.module}.{alias.name}", child.lineno, lazy)
            case ast.Call(func=ast.Name(id="import_module"), args=[ast.Constant(value=str(target)), *_]):
                yield Import(module, target, child.lineno, lazy)
        inside = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
        yield from _walk(module, child, lazy=lazy or inside)


def _part(module: str) -> str:
    return "" if module == "__init__.py" else module.split("/")[0].removesuffix(".py")


def _target_part(target: str) -> str | None:
    """The part of this package that an import leads to; ``None`` for other packages."""
    words = target.split(".")
    if words[0] != "cuttings":
        return None
    return words[1] if len(words) > 1 and (words[1] in MAY_IMPORT) else ""


def test_every_part_of_the_house_is_on_the_plan() -> None:
    parts = {_part(module) for module in _modules()} - {""}
    assert parts <= set(MAY_IMPORT), f"add to MAY_IMPORT: {sorted(parts - set(MAY_IMPORT))}"


def test_the_arrows_never_run_in_a_circle() -> None:
    order = list(TopologicalSorter(MAY_IMPORT).static_order())
    assert order[-1] == "__main__"


def test_imports_point_one_way() -> None:
    wrong = []
    for module in _modules():
        part = _part(module)
        for each in _imports(module):
            target = _target_part(each.target)
            if target is None or target == part or target in MAY_IMPORT.get(part, set()):
                continue
            if each.lazy and (part, target) in CALLED_BACK:
                continue
            allowed = ", ".join(sorted(MAY_IMPORT.get(part, set()))) or "nothing"
            wrong.append(f"{each}; {part} may import {allowed}")
    assert not wrong, "\n".join(wrong)


def test_only_the_command_table_imports_commands() -> None:
    wrong = [
        str(each)
        for module in _modules()
        for each in _imports(module)
        if _target_part(each.target) == "commands" and _part(module) not in ("commands", "app")
    ]
    assert not wrong, "\n".join(wrong)


def test_the_command_table_imports_no_command_before_it_is_called() -> None:
    ready = {"cuttings.commands.desk", "cuttings.commands.terminal"}
    wrong = [
        str(each)
        for each in _imports("app.py")
        if _target_part(each.target) == "commands" and not each.lazy
        if each.target.rpartition(".")[0] not in ready
    ]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("library", ONLY_THERE)
def test_a_library_is_imported_only_where_it_is_at_home(library: str) -> None:
    wrong = [
        str(each)
        for module in _modules()
        for each in _imports(module)
        if each.target.split(".")[0] == library and module not in ONLY_THERE[library]
    ]
    assert not wrong, "\n".join(wrong)


def _core_modules() -> list[str]:
    return [m for m in _modules() if _part(m) in CORE and m not in READS_AND_WRITES]


def test_the_core_imports_nothing_of_the_world_outside() -> None:
    wrong = [
        str(each)
        for module in _core_modules()
        for each in _imports(module)
        if each.target.split(".")[0] in OUTSIDE
    ]
    assert not wrong, "\n".join(wrong)


def test_the_core_never_asks_the_clock_prints_or_opens() -> None:
    wrong = []
    for module in _core_modules():
        for node in ast.walk(_tree(module)):
            match node:
                case ast.Call(func=ast.Attribute(attr=name)) if name in CLOCKS:
                    wrong.append(f"cuttings/{module}:{node.lineno} asks the clock ({name})")
                case ast.Call(func=ast.Name(id=name)) if name in DOORS:
                    wrong.append(f"cuttings/{module}:{node.lineno} calls {name}")
    assert not wrong, "\n".join(wrong)
