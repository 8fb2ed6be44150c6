"""The commands as two pages made from the program itself: docs/reference/commands.md and the man page bearline.1."""

import shlex
from typing import Any

import typer

from beamcheck.cli import app
from beamcheck.cli.foot import ALWAYS, ANSWERS, EXAMPLES

FRONT = typer.main.get_command(app)
COMMANDS: dict[str, Any] = FRONT.commands  # type: ignore[attr-defined]
STATES = """\
Every result is said in one of five words: within, close, over, not shown, refer. None of them is a verdict:
what bearline prints is a study aid for a licensed engineer and the local building code, and decides nothing."""


def synopsis(name: str) -> str:
    """How a command is typed: what must be there plain, what may be left out in brackets."""
    needed = [parameter for parameter in COMMANDS[name].params if parameter.required]
    free = [parameter for parameter in COMMANDS[name].params if not parameter.required]
    return " ".join(("bearline", name, *map(_typed, needed), *(f"[{_typed(parameter)}]" for parameter in free)))


def codes(name: str) -> dict[int, str]:
    """What each exit code of a command stands for."""
    return dict(enumerate(ANSWERS[name])) | dict(ALWAYS)


def commands_page() -> str:
    """The page of the reference."""
    parts = [f"# Commands\n\n{FRONT.help}\n\n{STATES}\n\n| command | what it does |\n|---|---|\n"]
    parts += [f"| [{name}](#bearline-{name}) | {_first(name)} |\n" for name in COMMANDS]
    parts.append("\n`bearline` itself takes:\n\n| option | what |\n|---|---|\n")
    parts += [f"| {_names(option)} | {option.help} |\n" for option in _front_options()]
    parts += [_command_part(name) for name in COMMANDS]
    return "".join(parts)


def man_page() -> str:
    """The same as a man page, in the macros of man(7)."""
    lines = [".TH BEARLINE 1", ".SH NAME", f"bearline \\- {_plain('study the removal of an interior wall')}"]
    lines += [".SH SYNOPSIS", *(line for name in COMMANDS for line in (_plain(synopsis(name)), ".br"))][:-1]
    lines += [".SH DESCRIPTION", _plain(str(FRONT.help)), ".PP", *map(_plain, STATES.splitlines())]
    lines += [".SH OPTIONS", *(line for option in _front_options() for line in _man_parameter(option))]
    lines += [".SH COMMANDS", *(line for name in COMMANDS for line in _man_command(name))]
    lines += [".SH EXIT STATUS", *_man_codes(codes("check")), ".PP"]
    lines += ["Where 0 and 1 stand for something else, the command says so above."]
    lines += [".SH EXAMPLES", ".nf", *(_plain(line) for name in COMMANDS for line in EXAMPLES[name]), ".fi"]
    return "\n".join(lines) + "\n"


def _command_part(name: str) -> str:
    parts = [f"\n## bearline {name}\n\n{COMMANDS[name].help}\n\n```\n{synopsis(name)}\n```\n"]
    if COMMANDS[name].params:
        parts.append("\n| argument or option | what | left out |\n|---|---|---|\n")
        parts += [f"| {_names(one)} | {_cell(one.help)} | {_left_out(one)} |\n" for one in COMMANDS[name].params]
    parts.append("\n| exit code | means |\n|---|---|\n")
    parts += [f"| {code} | {meaning} |\n" for code, meaning in codes(name).items()]
    parts.append("\n```sh\n" + "\n".join(EXAMPLES[name]) + "\n```\n")
    return "".join(parts)


def _man_command(name: str) -> list[str]:
    first, *more = COMMANDS[name].help.split("\n\n")
    lines = [f".SS {_plain(synopsis(name))}", _plain(first), *(line for text in more for line in (".PP", _plain(text)))]
    lines += [line for parameter in COMMANDS[name].params for line in _man_parameter(parameter)]
    if ANSWERS[name] != ANSWERS["check"]:
        told = "; ".join(f"{code}: {meaning}" for code, meaning in enumerate(ANSWERS[name]))
        lines += [".PP", _plain(f"Exit status {told}.")]
    return lines


def _man_parameter(parameter: Any) -> list[str]:
    left_out = _left_out(parameter).replace("`", "")
    told = f"{parameter.help} [{'needed' if left_out == 'needed' else f'default: {left_out}'}]" if left_out else None
    return [".TP", f".B {_plain(_names(parameter).replace('`', ''))}", _plain(told or parameter.help)]


def _man_codes(meant: dict[int, str]) -> list[str]:
    return [line for code, meaning in meant.items() for line in (".TP", f".B {code}", _plain(meaning))]


def _plain(text: str) -> str:
    """Text as roff prints it unchanged: no mark in it is taken for a command."""
    text = text.replace("\\", "\\(rs").replace("-", "\\-")
    return f"\\&{text}" if text.startswith((".", "'")) else text


def _front_options() -> list[Any]:
    return [option for option in FRONT.params if option.help]


def _first(name: str) -> str:
    return str(COMMANDS[name].help).partition("\n\n")[0]


def _typed(parameter: Any) -> str:
    """An argument or option as it stands in a synopsis."""
    if parameter.param_type_name == "argument":
        return parameter.name.upper() + ("..." if parameter.nargs == -1 else "")
    if parameter.is_flag:
        return "|".join((*parameter.opts, *parameter.secondary_opts))
    return f"{parameter.opts[0]} {_word(parameter)}" + (" ..." if parameter.multiple else "")


def _word(parameter: Any) -> str:
    """What stands behind an option: one of its words, or what kind of text it takes."""
    choices = getattr(parameter.type, "choices", ())
    return "|".join(shlex.quote(choice) for choice in choices) if choices else parameter.name.upper()


def _names(parameter: Any) -> str:
    """Every name of an argument or option."""
    if parameter.param_type_name == "argument":
        return f"`{parameter.name.upper()}`"
    return ", ".join(f"`{name}`" for name in (*parameter.opts, *parameter.secondary_opts))


def _left_out(parameter: Any) -> str:
    """What holds when it is left out: that it is needed, its default, or nothing to tell beyond its help."""
    if parameter.required:
        return "needed"
    default = parameter.default
    if parameter.param_type_name == "option" and parameter.is_flag:
        return f"`{parameter.opts[0]}`" if default else ""
    return f"`{getattr(default, 'value', default)}`" if default not in (None, "") else ""


def _cell(text: str) -> str:
    return text.replace("|", "\\|")
