"""The local page: a form and the live summary in a browser on this machine."""

from pathlib import Path
from typing import Annotated

import typer

from beamcheck.cli.app import WITHIN, app, guard
from beamcheck.cli.foot import foot


@app.command(epilog=foot("page"))
def page(
    survey: Annotated[Path, typer.Argument(help="The survey file to begin with; it is never written.")],
    browser: Annotated[bool, typer.Option("--open/--no-open", help="Open it in your browser.")] = True,
) -> None:
    """Fill in a survey in your browser and see the summary change.

    It is served to this machine only, and nothing leaves it.
    """

    def run() -> int:
        import webbrowser

        from beamcheck.survey.documents import file_bytes
        from beamcheck.views.page.routes import opened
        from beamcheck.views.page.server import PageServer

        with PageServer(opened(survey.name, file_bytes(survey))) as server:
            try:
                print(f"the page is at  {server.address}", flush=True)
                print("only this machine can open it; Ctrl-C ends it", flush=True)
                if browser:
                    webbrowser.open(server.address)
                server.serve_forever()
            except KeyboardInterrupt:
                print("\nthe page is closed; what was not downloaded is gone")
        return WITHIN

    guard(run)
