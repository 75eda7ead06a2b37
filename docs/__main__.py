"""Write anew what the program says and draws of itself here: python -m docs."""

from pathlib import Path

from docs.kit_document import reference_text
from docs.readme_pictures import readme_pictures

FOLDER = Path(__file__).parent


def main() -> None:
    """The page of the kit document, and the pictures of the README."""
    made = {f"pictures/{name}": svg for name, svg in readme_pictures().items()}
    for name, text in {"reference/kit-document.md": reference_text(), **made}.items():
        (FOLDER / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
