"""``kitbuilder page``: the program's screen in a browser on this machine."""

import click


@click.command()
@click.option("--no-browser", is_flag=True, help="Only say the address; open no browser.")
def page(no_browser: bool) -> None:
    """Make kits on a page in the browser; it runs on this machine alone, and keeps nothing."""
    import webbrowser

    from kitbuilder.page.server import serve

    def told(address: str) -> None:
        click.echo(f"Open {address} in a browser. Ctrl-C ends it.")

    serve((lambda address: None) if no_browser else webbrowser.open, told)
