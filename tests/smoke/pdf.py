"""Prints every kind of sheet of every sample and reads the files back with tools that had no part
in making them: the syntax with qpdf, the structure with pikepdf.

    python tests/smoke/pdf.py PROGRAM SURVEY...

What is asked follows ISO 19005-2 (PDF/A-2), conformance level A, as far as these tools can see it:
one output intent with an ICC profile (6.2.3), no transfer functions or encryption (6.1.3, 6.2.5),
all fonts embedded (6.2.11.4.1), no glyph .notdef shown (6.2.11.8), no actions and no scripts
(6.5.1, 6.6), no attached files, XMP that says part and conformance (6.6.4), the document marked
(6.7.2.2), a natural language (6.7.4), figures with a description and tables with head cells
(6.7.3), every text within marked content. This is not a full validation.
"""

import os
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pikepdf

KINDS = ("report", "quotation", "work-order", "completion", "invoice")
PAPERS = {"a4": (595.276, 841.89), "letter": (612.0, 792.0)}
SHOWING = {"Tj", "TJ", "'", '"'}


class Fault(Exception):
    """What a file lacks."""


def require(truth, words):
    if not truth:
        raise Fault(words)


def printed(program, survey, kind, paper, output):
    command = [program, "sheet", survey, "-o", output, "--kind", kind, "--paper", paper]
    run = subprocess.run(command, capture_output=True, text=True, check=False)
    # 1 and 3 say that the survey has errors or dangers of its own; the sheet is printed all the same.
    require(run.returncode in (0, 1, 3), f"not printed: {run.stderr}")
    return output.read_bytes()


def check_with_qpdf(path):
    run = subprocess.run(["qpdf", "--check", path], capture_output=True, text=True, check=False)
    require(run.returncode == 0, f"qpdf: {run.stdout}{run.stderr}")


def check_document(pdf, paper):
    problems = pdf.check_pdf_syntax()
    require(not problems, f"syntax: {problems}")
    require(not pdf.is_encrypted, "encrypted")
    require("/ID" in pdf.trailer, "no identifier in the trailer")
    root = pdf.Root
    require(str(root.get("/Lang", "")) == "en", "no language")
    require(root.get("/MarkInfo", {}).get("/Marked") is True, "not marked as tagged")
    intents = root.get("/OutputIntents", [])
    require(len(intents) == 1, f"{len(intents)} output intents")
    require(intents[0]["/S"] == "/GTS_PDFA1", "no output intent for the archive")
    profile = intents[0]["/DestOutputProfile"].read_bytes()
    require(profile[36:40] == b"acsp", "the colour profile is no ICC profile")
    for name in ("/OpenAction", "/AA", "/AcroForm"):
        require(name not in root, f"{name} in the catalog")
    for name in ("/JavaScript", "/EmbeddedFiles"):
        require(name not in root.get("/Names", {}), f"{name} among the names")
    with pdf.open_metadata() as words:
        require(words.pdfa_status == "2A", f"says it is PDF/A {words.pdfa_status!r}")
        require(words.get("dc:title"), "no title")
    for number, page in enumerate(pdf.pages, 1):
        wide, high = (float(side) for side in page.mediabox[2:])
        asked = PAPERS[paper]
        near = abs(wide - asked[0]) < 1 and abs(high - asked[1]) < 1
        require(near, f"page {number} is {wide} x {high} points")


def leaves(element, found):
    """Counts the kinds of structure elements below one, and looks at each."""
    kind = str(element.get("/S", ""))
    found[kind] = found.get(kind, 0) + 1
    if kind == "/Figure":
        require(str(element.get("/Alt", "")).strip(), "a figure without a description")
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            leaves(kid, found)


def check_structure(pdf):
    found = {}
    tree = pdf.Root["/StructTreeRoot"]
    kids = tree["/K"]
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        leaves(kid, found)
    require(found.get("/Document") == 1, f"structure: {found}")
    # A paper that says that there is nothing to bill has no table.
    for kind in ("/H1", "/P", *(("/TH", "/TD") if found.get("/Table") else ())):
        require(found.get(kind), f"no {kind} in the structure: {found}")
    require(found.get("/TH", 0) >= found.get("/Table", 0), f"tables without head cells: {found}")
    require("/ParentTree" in tree, "no way from content to structure")
    return found


def check_font(name, font):
    require(font["/Subtype"] == "/Type0", f"{name} is a font of an old kind")
    require("/ToUnicode" in font, f"{name} does not say which letters it shows")
    below = font["/DescendantFonts"][0]
    descriptor = below["/FontDescriptor"]
    embedded = [key for key in ("/FontFile", "/FontFile2", "/FontFile3") if key in descriptor]
    require(embedded, f"{font['/BaseFont']} is not embedded")
    require(font["/Encoding"] == "/Identity-H", f"{name} is not encoded by glyph")


def glyphs(operands):
    """The glyph numbers that one operator shows."""
    for operand in operands:
        strings = operand if isinstance(operand, pikepdf.Array) else [operand]
        for string in strings:
            if isinstance(string, pikepdf.String):
                codes = bytes(string)
                require(len(codes) % 2 == 0, "half a glyph")
                yield from (codes[at] << 8 | codes[at + 1] for at in range(0, len(codes), 2))


def check_content(holder, resources, seen):
    """Looks at what a page, or a form on it, draws; returns how many glyphs it shows."""
    shown, depth = 0, 0
    for name, font in resources.get("/Font", {}).items():
        check_font(name, font)
    for state in resources.get("/ExtGState", {}).values():
        require("/TR" not in state and "/TR2" not in state, "a transfer function")
    for operands, operator in pikepdf.parse_content_stream(holder):
        word = str(operator)
        if word in ("BDC", "BMC"):
            depth += 1
        elif word == "EMC":
            depth -= 1
        elif word in SHOWING:
            require(depth > 0, "text outside marked content")
            for glyph in glyphs(operands):
                require(glyph != 0, "the glyph .notdef is shown")
                shown += 1
    require(depth == 0, "marked content that is not closed")
    for name, inner in resources.get("/XObject", {}).items():
        require("/OPI" not in inner and "/Ref" not in inner, f"{name} points out of the file")
        if inner["/Subtype"] == "/Image":
            require(not inner.get("/Interpolate", False), f"{name} is smoothed by the viewer")
        elif inner.objgen not in seen:
            seen.add(inner.objgen)
            shown += check_form(inner, seen)
    return shown


def check_form(form, seen):
    """A form may stand in marked content of the page that uses it, so only its own is asked."""
    shown = 0
    for name, font in form.get("/Resources", {}).get("/Font", {}).items():
        check_font(name, font)
    for operands, operator in pikepdf.parse_content_stream(form):
        if str(operator) in SHOWING:
            for glyph in glyphs(operands):
                require(glyph != 0, "the glyph .notdef is shown in a form")
                shown += 1
    for inner in form.get("/Resources", {}).get("/XObject", {}).values():
        if inner["/Subtype"] == "/Form" and inner.objgen not in seen:
            seen.add(inner.objgen)
            shown += check_form(inner, seen)
    return shown


def check(path, paper):
    check_with_qpdf(path)
    with pikepdf.open(path) as pdf:
        check_document(pdf, paper)
        found = check_structure(pdf)
        seen = set()
        shown = sum(check_content(page, page.resources, seen) for page in pdf.pages)
        require(shown > 150, f"only {shown} glyphs")
        return len(pdf.pages), shown, found.get("/Figure", 0)


def told(program, survey, kind, paper, folder):
    """Prints a sheet twice and checks it; a line of what it holds."""
    name = f"{Path(survey).stem}, {kind}, {paper}"
    path = Path(folder) / f"{name}.pdf"
    try:
        first = printed(program, survey, kind, paper, path)
        require(first == printed(program, survey, kind, paper, path), "two prints differ")
        pages, shown, figures = check(path, paper)
    except Fault as fault:
        raise Fault(f"{name}: {fault}") from fault
    path.unlink()
    return f"{name}: {pages} pages, {shown} glyphs, {figures} figures, {len(first)} bytes"


def main():
    program, *surveys = sys.argv[1:]
    require(surveys, "no survey named")
    # Most of a print keeps one processor busy.
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(os.cpu_count()) as pool:
        sheets = [
            pool.submit(told, program, survey, kind, paper, folder)
            for survey in surveys
            for kind in KINDS
            for paper in PAPERS
        ]
        try:
            for sheet in sheets:
                print(sheet.result(), flush=True)
        except Fault as fault:
            pool.shutdown(cancel_futures=True)
            sys.exit(str(fault))


if __name__ == "__main__":
    main()
