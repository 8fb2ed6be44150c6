"""The local page without a browser: what it answers, to whom, and that nothing typed is lost or run."""

import json
import re
import tomllib
from html.parser import HTMLParser
from importlib.resources import files
from urllib.parse import urlencode

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from beamcheck.errors import InputError
from beamcheck.study.chain import study
from beamcheck.survey.fields import SECTIONS
from beamcheck.survey.reader import read_text
from beamcheck.survey.writer import write_survey
from beamcheck.views.asked_first import asked_first
from beamcheck.views.data import study_data
from beamcheck.views.page import asked as rules
from beamcheck.views.page.asked import Asked
from beamcheck.views.page.routes import Site, answered, opened
from beamcheck.views.pdf import sheet_pdf
from beamcheck.views.sheet import sheet_html
from beamcheck.views.words import CAUTIONS, SHORT_CAUTION, STATUS

DEMO = (files("beamcheck.survey") / "demo.toml").read_bytes()
PORT, TOKEN, NONCE = 8765, "a-token", "a-nonce"
HOST, HOME = ("host", f"127.0.0.1:{PORT}"), f"/{TOKEN}/"
SENT = (("origin", f"http://127.0.0.1:{PORT}"), ("content-type", "application/x-www-form-urlencoded"))
SITE = Site(PORT, TOKEN, opened("demo.toml", DEMO))
FORBIDDEN = re.compile(r"\b(approved|safe|ok to build|pass(es|ed)?|not bearing)\b", re.IGNORECASE)


class Form(HTMLParser):
    """What a browser would send of the form on a page, and the words of the page."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.values: dict[str, str] = {}
        self.words: list[str] = []
        self.faults: dict[str, str] = {}
        self._select = self._area = self._fault = ""
        self._chosen: str | None = None
        self.feed(page.decode())

    def handle_starttag(self, tag, attrs) -> None:
        given = dict(attrs)
        name = given.get("name") or ""
        if tag == "input" and given.get("type") != "checkbox":
            self.values[name] = given.get("value") or ""
        elif tag == "textarea":
            self._area, self.values[name] = name, ""
        elif tag == "select":
            self._select, self.values[name] = name, ""
        elif tag == "option" and "selected" in given:
            self._chosen = given.get("value")
            self.values[self._select] = self._chosen or ""
        if tag == "div":
            place = given.get("id") or ""
            self._fault = place if "fault" in (given.get("class") or "").split() else ""

    def handle_endtag(self, tag) -> None:
        self._area = "" if tag == "textarea" else self._area
        self._fault = "" if tag == "div" else self._fault

    def handle_data(self, data) -> None:
        if self._area:
            self.values[self._area] += data
        elif self.lasttag == "option" and self.get_starttag_text() == "<option selected>" and data.strip():
            self.values[self._select] = data
        if self._fault and data.strip():
            self.faults[self._fault] = self.faults.get(self._fault, "") + data.strip()
        self.words.append(data)


def get(target: str = HOME, *headers, method: str = "GET", site: Site = SITE):
    """Answer to a request for a page."""
    return answered(site, Asked(method, target, headers or (HOST,), b"", NONCE))


def post(values, target: str = HOME, *, site: Site = SITE, more=(), headers=(HOST, *SENT)):
    """Answer to a form."""
    body = values if isinstance(values, bytes) else urlencode(values).encode()
    return answered(
        site, Asked("POST", target, (*headers, ("content-length", str(len(body))), *more), body, NONCE)
    )


FIRST = Form(get().body)


def changed(**values: str) -> dict[str, str]:
    """The demonstration's form with some names filled in otherwise; two underscores stand for a full stop."""
    made = dict(FIRST.values)
    for name, text in values.items():
        key = re.sub(r"_(\d)__", r"[\1].", name).replace("__", ".")
        assert key in made, key
        made[key] = text
    return made


# what it shows


def test_the_page_shows_the_printed_summary_under_the_cautions() -> None:
    """The live side is the very markup that is printed; status and cautions stand before anything else."""
    page = get().body.decode()
    body = sheet_html(study(read_text(DEMO, "demo.toml"))).partition("<main>")[2].partition("</main>")[0]
    spoken = re.compile(r"<[^>]+>")
    assert spoken.sub("", body) in spoken.sub("", page)
    words = page[page.index("<body>") :]
    assert words.index(STATUS) < words.index("<h1>")
    assert SHORT_CAUTION in words
    assert all(caution in words for caution in CAUTIONS)
    assert not FORBIDDEN.search(spoken.sub(" ", words))


def test_sending_the_form_unchanged_shows_the_same_summary() -> None:
    """The survey that the form holds is the file's own: hash, drawings and figures are the same."""
    first, second = get().body.decode(), post(FIRST.values).body.decode()
    assert first == second


def test_another_opening_gives_other_utilisations() -> None:
    """A changed figure changes the summary, to what the same survey as a file gives."""
    text = DEMO.decode().replace(
        'note = "seen on the parlour side only, through a closet ceiling"', 'note = "x"'
    )
    page = post(changed(carried_1__span_a="13 ft 3 in")).body.decode()
    other = text.replace('span_a = { value = "12 ft 3 in"', 'span_a = { value = "13 ft 3 in"')
    wanted = study(read_text(other.encode()))
    unchanged = study(read_text(DEMO))
    links = [(link.word, link.governing and float(link.governing.ratio)) for link in wanted.links]
    assert links != [(link.word, link.governing and float(link.governing.ratio)) for link in unchanged.links]
    body = sheet_html(wanted)
    for ratio in re.findall(r"<b>(?:within|close|over)</b> (\d\.\d\d)", body):
        assert f"</b> {ratio}" in page


def test_faults_stand_at_their_field_in_the_words_of_the_terminal() -> None:
    """Each fault of reader or study is at its row and in the list; no figure is shown meanwhile."""
    values = changed(wall__clear_opening="14.5", beam__member="3-ply 9x99 LVL")
    answer = post(values)
    form = Form(answer.body)
    assert form.values == values
    with pytest.raises(InputError) as caught:
        read_text(post(values, f"{HOME}survey.toml").body)
    fault = caught.value.faults[0]
    assert fault.where == "wall.clear_opening"
    assert fault.what in form.faults["wall.clear_opening~fault"]
    assert fault.mend in form.faults["wall.clear_opening~fault"]
    assert "2 things to mend" in "".join(form.words)
    assert set(form.faults) == {"wall.clear_opening~fault", "beam.member~fault"}
    assert "governs:" not in "".join(form.words)
    later = Form(post(changed(beam__member="3-ply 9x99 LVL")).body)
    assert set(later.faults) == {"beam.member~fault"}


def test_the_script_gets_the_result_and_the_form_only_if_its_shape_changes() -> None:
    """With the shape that the form has, only what is said in it comes; with another, the form comes too."""
    shape = re.search(r'data-shape="([0-9a-f]+)"', get().body.decode())
    assert shape is not None
    same = post(changed(wall__clear_opening="14.5"), more=(("x-shape", shape[1]),)).body.decode()
    assert "<form" not in same
    assert 'data-for="wall.clear_opening~fault"' in same
    assert "<html" not in same
    other = post({**FIRST.values, "do": "add post[2]"}, more=(("x-shape", shape[1]),)).body.decode()
    assert '<form id="survey"' in other
    assert 'name="post[3].member"' in other


def test_buttons_add_and_remove_parts() -> None:
    """A button comes back as a form with one part more or fewer, all else as it was."""
    more = Form(post({**FIRST.values, "do": "add carried[2]"}).body).values
    assert more["carried[2].name"] == ""
    assert more["carried[3].name"] == FIRST.values["carried[2].name"]
    back = post({**more, "do": "remove carried[2]"})
    assert Form(back.body).values == FIRST.values


def test_a_word_that_may_not_be_stays_in_the_form() -> None:
    """A word of the file that is none of the choices is kept, shown as chosen, and named as a fault."""
    site = SITE._replace(start=opened("x.toml", DEMO.replace(b'position = "dropped"', b'position = "low"')))
    form = Form(get(site=site).body)
    assert form.values["beam.position"] == "low"
    assert "'low' is not one of the words" in form.faults["beam.position~fault"]


def test_variants_of_a_file_go_through_the_form() -> None:
    """What the form does not show is still in the survey that is downloaded."""
    variant = '\n[[variant]]\nname = "n & <n>"\nset = { "post[2].held" = "free" }\n'
    site = SITE._replace(start=opened("x.toml", DEMO + variant.encode()))
    form = Form(get(site=site).body)
    done = post({**form.values, "do": "add post[2]"}, f"{HOME}survey.toml", site=site)
    assert tomllib.loads(done.body.decode())["variant"][-1] == {"name": "n & <n>", "set": {"post[3].held": "free"}}


# what it hands out


def test_downloads_are_what_the_commands_write() -> None:
    """Survey, PDF, page and data of an unchanged form are, byte for byte, those of the commands."""
    made = study(read_text(DEMO, "demo.toml"))
    asked = asked_first(made)
    wanted = {
        "survey.toml": DEMO,
        "summary.pdf": sheet_pdf(made, asked=asked),
        "summary.html": sheet_html(made, asked=asked).encode(),
        "study.json": (json.dumps(study_data(made), indent=1, ensure_ascii=False) + "\n").encode(),
    }
    for name, body in wanted.items():
        done = post(FIRST.values, HOME + name)
        assert done.status == 200
        assert done.body == body
        assert done.headers["Content-Disposition"].startswith(
            f'attachment; filename="demo.{name.rpartition(".")[2]}"'
        )


def test_the_paper_and_the_book_can_be_chosen() -> None:
    """A4 and the calculation book come as asked."""
    made = study(read_text(DEMO, "demo.toml"))
    done = post({**FIRST.values, "paper": "a4", "book": "yes"}, f"{HOME}summary.html")
    from beamcheck.views.sheet import Book

    assert done.body == sheet_html(made, "a4", Book.FULL, asked_first(made)).encode()


def test_the_hash_on_the_summary_is_that_of_the_downloaded_survey() -> None:
    """A changed survey, downloaded and checked as a file, has the hash that its summary bears."""
    values = changed(study__title="Another title")
    survey = post(values, f"{HOME}survey.toml").body
    assert read_text(survey).about.title == "Another title"
    assert json.loads(post(values, f"{HOME}study.json").body)["input"]["sha256"] == read_text(survey).sha256


def test_a_survey_with_faults_is_handed_out_as_a_marked_draft_only() -> None:
    """With a fault, no summary or data is made; the survey is, and says on top what there is to mend."""
    values = changed(wall__clear_opening="")
    draft = post(values, f"{HOME}survey.toml")
    assert draft.status == 200
    assert "# DRAFT: 1 thing to mend\n# wall.clear_opening: is needed" in draft.body.decode()
    assert Form(get(site=SITE._replace(start=opened("d.toml", draft.body))).body).values == values
    for name in ("summary.pdf", "summary.html", "study.json"):
        done = post(values, HOME + name)
        assert done.status == 422
        assert Form(done.body).values == values


def test_the_draft_of_an_interview_is_completed_here() -> None:
    """A draft opens with what was answered, and is no longer marked as an interview's."""
    start = opened("x.toml", b'[draft]\nfoo = "later"\n' + DEMO)
    assert start.entries == SITE.start.entries
    assert read_text(start.data).about.title == read_text(DEMO).about.title


# to whom it answers


@pytest.mark.parametrize(
    "host",
    ["evil.example", f"evil.example:{PORT}", "127.0.0.1", f"127.0.0.1:{PORT + 1}", f"[::1]:{PORT}", ""],
)
def test_another_host_is_misdirected(host: str) -> None:
    """A name that somebody else points at this machine gets nothing, whatever else it knows: 421."""
    assert get(HOME, ("host", host)).status == 421
    assert post(FIRST.values, headers=(("host", host), *SENT)).status == 421


def test_a_missing_or_doubled_host_is_misdirected() -> None:
    """A request without a host, or with two, is not a browser's."""
    assert get(HOME, ("accept", "*/*")).status == 421
    assert get(HOME, HOST, HOST).status == 421


def test_localhost_is_the_same_address() -> None:
    """The other name of this machine is answered too."""
    assert get(HOME, ("host", f"localhost:{PORT}")).status == 200


@pytest.mark.parametrize("site", ["cross-site", "same-site", "", "NONE"])
def test_other_sites_are_refused(site: str) -> None:
    """A page of another site, or of another port of this machine, is refused: 403."""
    assert get(HOME, HOST, ("sec-fetch-site", site)).status == 403
    assert post(FIRST.values, more=(("sec-fetch-site", site),)).status == 403


@pytest.mark.parametrize(
    "origin",
    [
        "http://evil.example",
        "null",
        f"https://127.0.0.1:{PORT}",
        f"http://localhost:{PORT}",
        "http://127.0.0.1",
        "",
    ],
)
def test_forms_of_another_origin_are_refused(origin: str) -> None:
    """A form that another origin sends is refused, even one that hides its origin: 403."""
    headers = (HOST, ("origin", origin), SENT[1])
    assert post(FIRST.values, headers=headers).status == 403
    assert post({**FIRST.values, "do": "remove post[1]"}, headers=headers).status == 403


def test_a_form_that_says_nothing_of_its_origin_is_refused() -> None:
    """A form must show that it comes from here; the browser's own word for it will do."""
    assert post(FIRST.values, headers=(HOST, SENT[1])).status == 403
    own = ("sec-fetch-site", "same-origin")
    assert post(FIRST.values, headers=(HOST, SENT[1], own)).status == 200
    assert post(FIRST.values, headers=(HOST, SENT[1], own, ("origin", "null"))).status == 200


@pytest.mark.parametrize(
    "target", ["/", "/wrong/", f"/{TOKEN}", f"/{TOKEN}x/", f"//{TOKEN}/", "/favicon.ico", f"/{TOKEN[:-1]}/"]
)
def test_without_the_token_there_is_nothing(target: str) -> None:
    """Who cannot name the token finds nothing, and is not told how near it was: 404."""
    assert get(target).status == 404
    assert post(FIRST.values, target).status == 404


@pytest.mark.parametrize(
    "target",
    [f"{HOME}../etc/passwd", f"{HOME}demo.toml", f"{HOME}page.js", f"{HOME}%2e%2e/x", f"{HOME}summary.pdf/"],
)
def test_no_file_of_the_machine_is_served(target: str) -> None:
    """There is no place in the address for a file: 404."""
    assert get(target).status == 404
    assert post(FIRST.values, target).status == 404


@pytest.mark.parametrize("method", ["PUT", "DELETE", "OPTIONS", "PATCH", "CONNECT", "TRACE"])
def test_only_reading_and_sending(method: str) -> None:
    """Other methods are refused: 405."""
    assert get(method=method).status == 405


# how much, and of what kind


def test_long_forms_are_refused() -> None:
    """A body over the limit, or one that does not say its length, is refused: 413."""
    assert post(b"a" * (rules.MOST_BODY + 1)).status == 413
    for length in ("", "-1", "1e3", "99999999999999", "٣", "+5"):
        asked = Asked("POST", HOME, (HOST, *SENT, ("content-length", length)), b"", NONCE)
        assert answered(SITE, asked).status == 413
    assert answered(SITE, Asked("POST", HOME, (HOST, *SENT), b"", NONCE)).status == 413
    assert post(FIRST.values, more=(("transfer-encoding", "chunked"),)).status == 413


def test_too_many_names_are_refused() -> None:
    """A form with more names than any survey of ours is refused: 400."""
    assert post(b"&".join(b"a=" for _ in range(rules.MOST_NAMES + 1))).status == 400


@pytest.mark.parametrize("target", [f"{HOME}?x=1", f"{HOME}?", HOME + "x" * 300])
def test_queries_and_long_targets_are_refused(target: str) -> None:
    """The page takes no query: 414."""
    assert get(target).status == 414


@pytest.mark.parametrize("kind", ["text/plain", "application/json", "multipart/form-data; boundary=x", ""])
def test_only_forms_are_read(kind: str) -> None:
    """Kinds of body that other sites can send without asking, or that are no form, are refused: 415."""
    assert post(FIRST.values, headers=(HOST, SENT[0], ("content-type", kind))).status == 415


@pytest.mark.parametrize(
    "body",
    [
        b"wall.hight=1",
        b"do=explode",
        b"%ff=1",
        b"a=%ff",
        b"\xff=1",
        b"paper=a3",
        b"variant=x",
        b"variant=[1]",
        b"book=1",
    ],
)
def test_what_is_no_form_of_ours_is_refused(body: bytes) -> None:
    """Unknown names, buttons and bytes are refused in a sentence: 400."""
    done = post(body)
    assert done.status == 400
    assert done.body.startswith(b"bearline: ")


def test_every_answer_bears_the_strict_headers() -> None:
    """Nothing outside may be loaded, framed, cached or told where it came from, whatever the answer."""
    answers = [
        get(),
        get("/"),
        get(f"{HOME}icon.svg"),
        get(HOME, ("host", "x")),
        post(FIRST.values, f"{HOME}study.json"),
        post(b"x=1"),
        get(method="PUT"),
    ]
    for answer in answers:
        policy = dict(
            part.strip().split(" ", 1) for part in answer.headers["Content-Security-Policy"].split(";")
        )
        assert policy["default-src"] == "'none'"
        assert policy["frame-ancestors"] == policy["base-uri"] == "'none'"
        assert policy["connect-src"] == policy["form-action"] == "'self'"
        assert "unsafe" not in " ".join(policy.values())
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Referrer-Policy"] == "no-referrer"
        assert answer.headers["Cache-Control"] == "no-store"
        assert answer.headers["Content-Length"] == str(len(answer.body))
        assert not set(answer.headers) & {"Set-Cookie", "Access-Control-Allow-Origin"}
    assert f"script-src 'nonce-{NONCE}'" in answers[0].headers["Content-Security-Policy"]
    assert "script-src 'none'" in answers[1].headers["Content-Security-Policy"]


def test_the_page_names_nothing_outside_itself() -> None:
    """No address of another place, no style in a tag and no script without the nonce stands in the page."""
    page = get().body.decode()
    addresses = set(re.findall(r"(?:https?:)?//[^\s\"'<)]+", re.sub(r'xmlns="[^"]+"', "", page)))
    assert not addresses
    assert not re.search(r"\sstyle=|\son[a-z]+=|javascript:", page)
    assert set(re.findall(r"<(?:script|style)([^>]*)>", page)) <= {
        f' nonce="{NONCE}"',
        f' nonce="{NONCE}" id="sheet-style"',
    }


BARE = SITE._replace(
    start=opened(
        "bare.toml",
        write_survey(
            {
                key: part
                for key, part in SITE.start.entries.items()
                if key in ("study", "site", "wall", "carried", "beam", "post")
            }
        ).encode(),
    )
)
NASTY = [
    '"><script>alert(1)</script>',
    "{{ 7 * 7 }}",
    "{% raw %}",
    "]]>",
    '"]#read("/etc/passwd")',
    "$ & < > '",
    "\u202e\u0001",
    "</textarea>",
]


@pytest.mark.parametrize("text", NASTY)
def test_what_is_typed_is_only_ever_text(text: str) -> None:
    """What is typed comes back as typed, in its field, opens no tag of its own and is not worked out."""
    first = Form(get(site=BARE).body).values
    for name in (
        "study.title",
        "study.question",
        "beam.position",
        "beam.top_edge.note",
        "beam.top_edge.trust",
    ):
        page = post({**first, name: text}, site=BARE).body
        assert Form(page).values == {**first, name: text}
        assert page.count(b"<script") == 1
    if text.isprintable():
        assert text in "".join(Form(post({**first, "study.title": text}, site=BARE).body).words)


FIELDS = sorted(name for name in FIRST.values if re.match(r"[a-z_]+(\[\d\])?\.", name))
TYPED = st.text(max_size=40) | st.sampled_from(
    [
        "unknown",
        "0 ft",
        "-3 ft",
        "1e308 in",
        "13 ft 6 in",
        "nan",
        "inf psf",
        "1/0 in",
        "post 1",
        "girder",
        "free",
        "no",
        "12 psf",
        "2x4",
        "1:0",
    ]
)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.dictionaries(st.sampled_from(FIELDS), TYPED, min_size=1, max_size=6))
def test_anything_typed_anywhere_gets_a_page_and_no_fault_of_ours(typed) -> None:
    """Whatever stands in whichever fields, the answer is the page with every text as it was typed."""
    values = {**FIRST.values, **typed}
    done = post(values)
    assert done.status == 200
    assert b"a fault of the tool itself" not in done.body
    shown = Form(done.body).values
    for name, text in values.items():
        single = re.sub(r"[\r\n\t]+", " ", text).strip()
        assert shown.get(name, "").strip() == single or "\x00" in text, name


@given(st.binary(max_size=300))
def test_any_bytes_get_an_answer(body: bytes) -> None:
    """No body makes the page fail."""
    assert post(body).status in (200, 400)


def test_a_fault_of_ours_keeps_what_was_typed(monkeypatch) -> None:
    """If a study fails by our fault, the page says so and the form comes back whole."""
    from beamcheck.views.page import routes

    def broken(survey):
        raise ZeroDivisionError("on purpose")

    monkeypatch.setattr(routes, "study", broken)
    values = changed(study__title="Mine")
    done = post(values)
    assert done.status == 200
    assert "a fault of the tool itself, not of your survey: ZeroDivisionError" in done.body.decode()
    assert Form(done.body).values == values


def test_every_section_can_be_added_from_the_page() -> None:
    """Each part that a survey may do without has a button while it is missing, and it works."""
    page = get(site=BARE).body.decode()
    for section in SECTIONS:
        if section.optional:
            do = f"add {section.key}{'[1]' if section.repeated else ''}"
            assert f'value="{do}"' in page
            added = post({**Form(page.encode()).values, "do": do}, site=BARE).body.decode()
            assert f'name="{section.key}{"[1]" if section.repeated else ""}.{section.fields[0].key}"' in added
