"""Read a survey file. Every fault is gathered and reported at once, with its key path and what would do."""

import hashlib
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any

from beamcheck.errors import Fault, InputError
from beamcheck.survey.documents import file_bytes, parsed
from beamcheck.survey.entries import LAYERED, Entries, nearest, nothing
from beamcheck.survey.fields import SECTIONS, Field, Section
from beamcheck.survey.fields_around import AROUND
from beamcheck.survey.fields_below import BELOW
from beamcheck.survey.fields_explore import EXPLORE
from beamcheck.survey.model import About, Beam, Carried, Post, Site, Survey, Wall, Word

VARIANT = "variant"
_ALL_CARRIED = (
    "describe with [[carried]], one for each, all that comes down on the wall: roof, ceiling, floor, wall above, "
    "strut; a roof or strut asks for site.ground_snow too"
)
DRAFT = "draft"  # the part that marks what an interview has not finished


def read(path: Path) -> Survey:
    """The survey in a file. Raises InputError with every fault found."""
    return read_text(file_bytes(path), path.name)


def read_text(data: bytes, file: str = "survey") -> Survey:
    """The survey in the bytes of a file as written. Raises InputError with every fault found, in its variants too."""
    document = parsed(data, file)
    varied = document.pop(VARIANT, None)
    sha256 = hashlib.sha256(data).hexdigest()
    reader = _Reader()
    survey = reader.read(document, sha256, file)
    if varied is not None:
        from beamcheck.survey.variants import variant_faults

        reader.faults += variant_faults(document, varied, tuple(reader.faults))
    if survey is None or reader.faults:
        from beamcheck.survey.lines import with_lines

        raise with_lines(InputError(reader.faults, file), data)
    return survey


def from_document(document: dict[str, Any], sha256: str, file: str) -> Survey:
    """The survey in a TOML document without variants. Raises InputError with every fault found."""
    reader = _Reader()
    survey = reader.read(document, sha256, file)
    if survey is None:
        raise InputError(reader.faults, file)
    return survey


def read_section(path: Path, key: str) -> tuple[tuple[dict[str, Any], ...], tuple[Word, ...]]:
    """Entries and words of one section, of a file whose others may be unfinished. Raises InputError with its faults."""
    reader = _Reader()
    entries = reader.section(_section(key), parsed(file_bytes(path), path.name))
    if reader.faults:
        raise InputError(reader.faults, path.name)
    return tuple(entries), tuple(reader.words)


def left_empty(key: str) -> dict[str, Any]:
    """The entries of a section in which nothing is written: what stands in for each, or nothing."""
    return _Reader().table(_section(key), {}, key)


def _section(key: str) -> Section:
    return next(section for section in SECTIONS if section.key == key)


def entry_faults(field: Field, written: Any, where: str, kind: str = "") -> tuple[Fault, ...]:
    """What is wrong with one entry by itself; ``kind`` of the carried item that it belongs to."""
    reader = _Reader()
    reader.entry(field, written, where, kind)
    return tuple(reader.faults)


def part_faults(document: Mapping[str, Any], keys: Collection[str]) -> tuple[Fault, ...]:
    """What is wrong within some parts of a document, by their keys."""
    reader = _Reader()
    for section in SECTIONS:
        if section.key in keys:
            reader.section(section, document)
    return tuple(reader.faults)


class _Reader(Entries):
    """Walks the document, section by section."""

    def read(self, document: dict[str, Any], sha256: str, file: str) -> Survey | None:
        """The survey, or None where there is any fault."""
        sections = {section.key: section for section in SECTIONS}
        if DRAFT in document:
            mend = f"go on with it:  bearline ask {file}"
            self.faults = [Fault(DRAFT, "this is a draft, which an interview has not completed", mend)]
            return None
        for key in document:
            if key not in sections and not self.full:
                self.fault(key, "is not a part of a survey", nearest(key, tuple(sections)))
        parts = {section.key: self.section(section, document) for section in SECTIONS}
        about, site, wall, carried, beam, posts = (
            parts[key] for key in ("study", "site", "wall", "carried", "beam", "post")
        )
        if not carried:
            self.fault("carried", "nothing is carried", _ALL_CARRIED)
        if len(posts) < 2:
            self.fault("post", f"{len(posts)} posts", "a beam needs at least two [[post]] tables")
        if len(posts) > 7:
            self.fault("post", f"{len(posts)} posts", "at most seven posts, six spans, can be checked")
        if self.faults:
            return None
        return Survey(
            About(**about[0]),
            Site(**site[0]),
            Wall(**wall[0]),
            tuple(Carried(**_renamed(entry)) for entry in carried),
            Beam(**beam[0]),
            tuple(Post(**entry) for entry in posts),
            tuple(self.words),
            sha256,
            file,
            **_below(parts),
            **_around(parts),
            **_asked(parts),
        )

    def section(self, section: Section, document: Mapping[str, Any]) -> list[dict[str, Any]]:
        if section.optional and section.key not in document:
            return []
        written = document.get(section.key, [] if section.repeated else {})
        if section.repeated:
            if not isinstance(written, list) or not all(isinstance(item, dict) for item in written):
                self.fault(section.key, "is not a list of tables", f"write each one under  [[{section.key}]]")
                return []
            if len(written) > section.most:
                self.fault(section.key, f"{len(written)} tables", f"at most {section.most}")
                return []
            return [self.table(section, item, f"{section.key}[{index + 1}]") for index, item in enumerate(written)]
        if not isinstance(written, dict):
            self.fault(section.key, "is not a table", f"write its keys under  [{section.key}]")
            written = {}
        return [self.table(section, written, section.key)]

    def table(self, section: Section, written: dict[str, Any], where: str) -> dict[str, Any]:
        kind = written.get("kind") if section.key == "carried" else None
        kind = kind.get("value") if isinstance(kind, dict) else kind
        kind = kind.strip() if isinstance(kind, str) else ""
        known = {field.key: field for field in section.fields}
        if kind not in next((field.choices for field in section.fields if field.key == "kind"), (kind,)):
            kind = ""  # what the item may hold goes by its kind, so of one that is not understood only that is told
        for key in written:
            if self.full:
                break
            if key not in known:
                self.fault(f"{where}.{key}", "is not a key of a survey", nearest(key, tuple(known)))
            elif kind and not _fits(known[key], kind):
                self.fault(
                    f"{where}.{key}",
                    f"a carried item of kind {kind!r} has no {key}",
                    f"leave it out, or mend {where}.kind",
                )
        entry: dict[str, Any] = {"where": where} if section.repeated else {}
        for field in section.fields:
            fits = not field.kinds or _fits(field, kind)
            entry[field.key] = (
                self.entry(field, written.get(field.key), f"{where}.{field.key}", kind) if fits else nothing(field)
            )
        if any(entry.get(key) for key in (*LAYERED, "top_area")):
            from beamcheck.survey.built_up import built_up

            built_up(self, section, written, entry)
        return entry


def _below(parts: dict[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """What stands under the posts; its types are imported only where any of it is there."""
    if not any(parts[section.key] for section in BELOW):
        return {}
    from beamcheck.survey import below

    made = {"girder": below.Girder, "pad": below.Pad, "ties": below.Ties}
    return {section.attribute: section.filled(made[section.key], parts[section.key]) for section in BELOW}


def _around(parts: dict[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """The parts that a survey may do without; their types are imported only where one is there."""
    if not any(parts[section.key] for section in AROUND):
        return {}
    from beamcheck.survey.around import gathered

    return gathered(parts)


def _asked(parts: dict[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """What is asked beyond one study; its type is imported only where it is there."""
    if not parts["options"]:
        return {}
    from beamcheck.survey.explore import Wanted

    return {section.attribute: section.filled(Wanted, parts[section.key]) for section in EXPLORE}


def _fits(field: Field, kind: str) -> bool:
    return not field.kinds or kind in field.kinds


def _renamed(entry: dict[str, Any]) -> dict[str, Any]:
    """``from`` and ``to`` cannot be names in Python."""
    renamed = {"from": "start", "to": "end"}
    return {renamed.get(key, key): value for key, value in entry.items()}
