"""`kitwright forms`: what parts can be."""

from __future__ import annotations

import click

from kitwright.cli.show import console, print_json

__all__ = ["command"]


@click.command("forms")
@click.argument("form", required=False)
@click.option("--json", "as_json", is_flag=True, help="Print everything for other programs.")
@click.option(
    "--units", type=click.Choice(["in", "mm", "cm"]), default="in", show_default=True, help="Units for limits."
)
def command(form: str | None, units: str, as_json: bool) -> int:
    """List all forms, or tell everything about one FORM."""
    from rich.table import Table  # noqa: PLC0415

    import kitwright.forms  # noqa: F401, PLC0415  (fills the catalogue)
    from kitwright.catalogue import CATALOGUE, default_words, get, parameters  # noqa: PLC0415
    from kitwright.measure import Unit, parse_ruler  # noqa: PLC0415

    ruler = parse_ruler("1/16 in" if units == "in" else "1 mm", Unit(units))
    chosen = [get(form)] if form else [CATALOGUE[key] for key in sorted(CATALOGUE)]
    if as_json:
        print_json(
            [
                {
                    "form": each.key,
                    "summary": each.summary,
                    "size": list(each.size),
                    "numbers": [
                        {
                            "name": p.word.replace(" ", "-"),
                            "label": p.label,
                            "at_least_mm": p.at_least,
                            "at_most_mm": p.at_most,
                        }
                        for p in parameters(each)
                        if not p.choices
                    ],
                    "choices": {p.word.replace(" ", "-"): list(p.choices) for p in parameters(each) if p.choices},
                }
                for each in chosen
            ]
        )
        return 0
    screen = console()
    if not form:
        table = Table(title="Forms", title_justify="left")
        table.add_column("Form", no_wrap=True)
        table.add_column("Size is")
        table.add_column("What it is")
        for each in chosen:
            table.add_row(each.key, " × ".join(each.size), each.summary)
        screen.print(table)
        screen.print('"kitwright forms" and a form\'s name tells the numbers it takes.')
        return 0
    (each,) = chosen
    screen.print(each.title, style="bold", end="")
    screen.print(f". {each.summary}")
    screen.print(f"Its size is said as {' × '.join(each.size)}.")
    table = Table()
    for name in ("Key", "What it is", f"From, {units}", f"To, {units}", "If you do not say it"):
        table.add_column(name)
    for p in parameters(each):
        if p.choices:
            table.add_row(p.word.replace(" ", "-"), f"{p.label}: {p.help}", " or ".join(p.choices), "", p.choices[0])
            continue
        default = (
            "follows from the size"
            if p.default is None or isinstance(p.default, str)
            else default_words(p.default, (ruler,))
        )
        label = f"{p.label}: {p.help}" if p.help else p.label
        table.add_row(
            p.word.replace(" ", "-"),
            label,
            ruler.format(ruler.up(p.at_least)),
            ruler.format(ruler.down(p.at_most)),
            default,
        )
    screen.print(table)
    return 0
