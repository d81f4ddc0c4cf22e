#!/usr/bin/python3
"""Puts the page together: python3 assemble.py ENGINE.js ENGINE.wasm FOODS FONTS... OUT_FOLDER. Two outputs with the
same content: tuck.html, one file, and site/, split for hosting, with what makes it work offline after one visit."""
import base64
import gzip
import hashlib
import json
import re
import struct
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent / "web"
SCRIPTS = ["strings.js", "dom.js", "engine.js", "store.js", "day.js", "race.js", "have.js", "otherwise.js", "print.js",
           "after.js", "live.js", "squad.js", "files.js", "main.js"]
# What the PDF writer reads of a TrueType font; the rest sets type that it does not set (kerning, ligatures).
FONT_TABLES = {b"OS/2", b"cmap", b"cvt ", b"fpgm", b"glyf", b"head", b"hhea", b"hmtx", b"loca", b"maxp", b"name",
               b"post", b"prep"}


def files(pairs):
    """Length of the path, path, length, bytes; lengths in four bytes (see worker.js)."""
    out = b""
    for path, data in pairs:
        name = path.encode()
        out += struct.pack("<I", len(name)) + name + struct.pack("<I", len(data)) + data
    return out


def compact(path):
    """A document of the pantry without its blanks."""
    return json.dumps(json.loads(path.read_text()), ensure_ascii=False, separators=(",", ":")).encode()


def plain_font(data):
    """A TrueType font with the tables above alone: OpenType specification, "Organization of an OpenType Font"."""
    count = struct.unpack(">H", data[4:6])[0]
    rows = [data[12 + 16 * i:28 + 16 * i] for i in range(count)]
    rows = [row for row in rows if row[:4] in FONT_TABLES]
    # The three fields for a binary search stay those of the whole font: the PDF writer copies them into its papers.
    out = data[:4] + struct.pack(">H", len(rows)) + data[6:12]
    at = len(out) + 16 * len(rows)
    body = b""
    for row in rows:
        start, size = struct.unpack(">II", row[8:])
        out += row[:8] + struct.pack(">II", at + len(body), size)
        body += data[start:start + size] + b"\0" * (-size % 4)
    return out + body


def lean(script):
    """Without what only its readers need: lines that are comment alone, and their blanks in front."""
    # A cast at the head of a line ends no comment there.
    script = re.sub(r"^[ \t]*/\*\*(?:(?!\*/).)*\*/[ \t]*\n", "", script, flags=re.S | re.M)
    return re.sub(r"^[ \t]+|^[ \t]*//.*\n", "", script, flags=re.M)


# What is compiled into the page or carried by it: Debian's own copyright files are the texts.
PACKAGES = ("libhpdf-dev", "zlib1g", "libexpat1", "nlohmann-json3-dev", "libfmt-dev", "libfast-float-dev", "libutfcpp-dev",
            "fonts-liberation", "fonts-roboto-unhinted")
RUNTIME = r"^Files:\s+\*\s|system/lib/(libc/musl|libcxx|libcxxabi|compiler-rt|dlmalloc)"


def runtime_terms(text):
    """Of emscripten's copyright file what speaks of the runtime that the page holds: its files, then the licences they name."""
    paragraphs = re.split(r"\n\s*\n", text)
    files = [part for part in paragraphs if part.startswith("Files:") and re.search(RUNTIME, part)]
    named = {name for part in files for name in re.findall(r"[\w.~-]+", " ".join(re.findall(r"^License: (.*)", part, re.M)))}
    return "\n\n".join(files + [part for part in paragraphs if re.match(r"License: (\S+)", part) and part.split()[1] in named])


def licences():
    source = (HERE.parents[1] / "cli/licences.cpp").read_text()
    whole = [re.search(r'R"licences\((.*)\)licences"', source, re.S)[1]]
    for package in PACKAGES:
        whole.append(f"==== {package}\n\n" + Path(f"/usr/share/doc/{package}/copyright").read_text("utf-8", "replace"))
    whole.append("==== emscripten\n\n" + runtime_terms(Path("/usr/share/doc/emscripten/copyright").read_text("utf-8", "replace")))
    for name in ("Apache-2.0", "GPL-2"):
        whole.append(f"==== {name}\n\n" + Path(f"/usr/share/common-licenses/{name}").read_text())
    return "\n\n".join(whole)


def digest(text):
    return "'sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() + "'"


def filled(rules, **places):
    text = (HERE / "index.html").read_text()
    rules = {"default-src": "'none'", "img-src": "'none'", "form-action": "'none'", "base-uri": "'none'", **rules}
    for name, value in {"CSP": "; ".join(f"{key} {value}" for key, value in rules.items()), **places}.items():
        text = text.replace(f"@{name}@", value)
    return text


def one_file(script, style, parts):
    def carried(*names):
        return "\n".join(f'<script type="text/plain" id="part-{name}">{base64.b64encode(parts[name]).decode()}</script>'
                         for name in names)
    # What a first answer takes, then the script, then the rest: the script begins while that is still being read.
    return filled({"script-src": f"{digest(script)} 'wasm-unsafe-eval' blob:", "worker-src": "blob:", "style-src": digest(style),
                   "connect-src": "'none'"},
                  HEAD=f"<style>{style}</style>", BODY=f"{carried('worker', 'foods', 'engine')}\n<script>{script}</script>\n{carried('fonts', 'licences')}")


def site(script, style, parts, folder):
    """Its parts beside it: a change of one is fetched alone. Nothing but its own host is ever asked."""
    folder.mkdir(parents=True, exist_ok=True)
    for old in folder.iterdir():
        old.unlink()
    manifest = {"name": "tuck", "short_name": "tuck", "start_url": "./", "display": "standalone", "background_color": "#f3f5f2",
                "theme_color": "#0a5a45", "icons": [{"src": "icon.svg", "sizes": "any", "type": "image/svg+xml"}]}
    page = filled({"script-src": "'self' 'wasm-unsafe-eval' blob:", "worker-src": "'self' blob:", "style-src": "'self'",
                   "connect-src": "'self'", "manifest-src": "'self'", "img-src": "'self'"},
                  HEAD='<link rel="manifest" href="tuck.webmanifest">\n<link rel="icon" href="icon.svg">\n'
                       '<link rel="stylesheet" href="tuck.css">',
                  BODY='<script src="tuck.js"></script>')
    beside = {"index.html": page.encode(), "icon.svg": (HERE / "icon.svg").read_bytes(), "tuck.js": script.encode(), "tuck.css": style.encode(),
              "tuck.webmanifest": json.dumps(manifest).encode(), **{f"{name}.bin": data for name, data in parts.items()}}
    for name, data in beside.items():
        (folder / name).write_bytes(data)
    version = hashlib.sha256(b"".join(beside.values())).hexdigest()[:12]
    names = json.dumps(["./", *beside])
    (folder / "offline.js").write_text((HERE / "offline.js").read_text().replace("@VERSION@", version).replace('"@FILES@"', names))


def main():
    engine, wasm, foods, *fonts, out = map(Path, sys.argv[1:])
    script = lean("\n".join((HERE / name).read_text() for name in SCRIPTS))
    style = (HERE / "style.css").read_text()
    worker = engine.read_text() + "\n" + lean((HERE / "worker.js").read_text())
    parts = {name: gzip.compress(data, 9, mtime=0) for name, data in {
        "worker": worker.encode(),
        "engine": wasm.read_bytes(),
        "foods": files([(f"/foods/{p.name}", compact(p)) for p in sorted(foods.glob("*.json"))]),
        "licences": licences().encode(),
        "fonts": files([(str(font), plain_font(font.read_bytes())) for font in fonts]),
    }.items()}
    (out / "tuck.html").write_text(one_file(script, style, parts))
    site(script, style, parts, out / "site")
    for path in (out / "tuck.html", *sorted((out / "site").iterdir())):
        print(f"{path}: {path.stat().st_size:,} bytes")


main()
