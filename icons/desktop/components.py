"""What is built into the program: python icons/desktop/components.py FOLDER

Writes FOLDER/components.cdx.json, a bill of materials in the CycloneDX form with the checksum of
each library from the lock file, and FOLDER/library-licences, the text of every licence that came
with their sources. Both hold what a build for Linux on 64-bit Intel and AMD links, and no tool that
only builds it. The same tree gives the same bytes.
"""

import json
import pathlib
import re
import subprocess
import sys
import tomllib

TARGET = "x86_64-unknown-linux-gnu"
LICENCE = re.compile(r"^(licen[cs]e|copying|notice|unlicense|ofl|ufl)", re.IGNORECASE)


def metadata():
    """What cargo knows of the packages and how they hang together."""
    said = subprocess.run(
        ["cargo", "metadata", "--locked", "--format-version=1", f"--filter-platform={TARGET}"],
        check=True,
        capture_output=True,
    )
    return json.loads(said.stdout)


def names_linked():
    """Name and version of what the program links. The features that tests ask for are told apart
    only by the tree; the metadata has them all."""
    said = subprocess.run(
        ["cargo", "tree", "--locked", f"--target={TARGET}", "--edges=normal,no-proc-macro"]
        + ["--prefix=none", "--format={p}"],
        check=True,
        capture_output=True,
        text=True,
    )
    return {tuple(line.split()[:2]) for line in said.stdout.splitlines() if line}


def linked(known):
    """Packages the program links, by name and version, and what each of them links itself."""
    names = names_linked()
    packages = {package["id"]: package for package in known["packages"]}
    nodes = {node["id"]: node for node in known["resolve"]["nodes"]}
    reached = {}
    for one, package in packages.items():
        if (package["name"], f"v{package['version']}") in names:
            reached[one] = [
                dependency["pkg"]
                for dependency in nodes[one]["deps"]
                if any(kind["kind"] is None for kind in dependency["dep_kinds"])
            ]
    for one, others in reached.items():
        reached[one] = sorted(set(others) & reached.keys())
    ordered = sorted(reached, key=lambda one: (packages[one]["name"], packages[one]["version"]))
    return [packages[one] for one in ordered], reached


def checksums():
    """Checksum of each package by name and version."""
    with open("Cargo.lock", "rb") as file:
        locked = tomllib.load(file)["package"]
    return {(one["name"], one["version"]): one.get("checksum") for one in locked}


def reference(package):
    """How a package is called in the bill: a package URL."""
    return f"pkg:cargo/{package['name']}@{package['version']}"


def component(package, kind, checksum):
    """A package as the bill lists it."""
    told = {
        "type": kind,
        "bom-ref": reference(package),
        "name": package["name"],
        "version": package["version"],
        "purl": reference(package),
        # Some write a slash between licences to choose from.
        "licenses": [{"expression": re.sub(r"\s*/\s*", " OR ", package["license"])}],
    }
    if package["description"]:
        told["description"] = " ".join(package["description"].split())
    if checksum:
        told["hashes"] = [{"alg": "SHA-256", "content": checksum}]
    return told


def bill(packages, links, root):
    """The bill of materials."""
    sums = checksums()
    by_id = {package["id"]: package for package in packages}
    every = {one["id"]: component(one, "library", sums[one["name"], one["version"]]) for one in packages}
    main = component(by_id[root], "application", None)
    del every[root]
    return {
        "bomFormat": "CycloneDX",
        "specVersion": "1.5",
        "version": 1,
        "metadata": {"component": main},
        "components": list(every.values()),
        "dependencies": [
            {"ref": reference(one), "dependsOn": [reference(by_id[to]) for to in links[one["id"]]]}
            for one in packages
        ],
    }


def licences(packages, root):
    """Each text once, under the names of all that carry it; and who carries none."""
    carried, silent = {}, []
    for package in packages:
        folder = pathlib.Path(package["manifest_path"]).parent
        # Sources that a library took over from elsewhere stand in a folder of their own.
        there = sorted([*folder.glob("*"), *folder.glob("*/*")])
        files = [file for file in there if file.is_file() and LICENCE.match(file.name)]
        if package["id"] == root:
            files = list(folder.glob("src/fonts/*-LICENSE.txt"))
        if not files:
            silent.append(f"{package['name']} {package['version']}: {package['license']}")
        for file in files:
            text = file.read_text(encoding="utf-8", errors="replace").replace("\r\n", "\n").strip()
            named = f"{package['name']} {package['version']}"
            if package["id"] == root:
                named = f"font {file.name.removesuffix('-LICENSE.txt')}"
            carried.setdefault(text, {})[named] = None
    parts = ["The licences of what is built into Gapledger.\n"]
    for text, names in sorted(carried.items(), key=lambda pair: list(pair[1])[0]):
        parts.append(f"{'=' * 80}\n{', '.join(names)}\n{'=' * 80}\n{text}\n")
    parts.append(f"{'=' * 80}\nTheir sources name a licence and carry no text of it\n{'=' * 80}\n")
    parts.append("\n".join(silent) + "\n")
    return "\n".join(parts)


def main():
    """Writes both files."""
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    known = metadata()
    packages, links = linked(known)
    root = known["resolve"]["root"]
    written = json.dumps(bill(packages, links, root), indent=1, ensure_ascii=False)
    (folder / "components.cdx.json").write_text(written + "\n", encoding="utf-8")
    (folder / "library-licences").write_text(licences(packages, root), encoding="utf-8")
    print(f"{len(packages) - 1} libraries in {folder}")


if __name__ == "__main__":
    main()
