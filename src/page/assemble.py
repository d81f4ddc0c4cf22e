#!/usr/bin/python3
"""Puts the page together: python3 assemble.py ENGINE.js ENGINE.wasm FOODS FONTS... OUT_FOLDER. Two outputs with the
same content: tuck.html, one file, and site/, for hosting, with what makes it work offline after one visit."""
import base64
import gzip
import hashlib
import json
import struct
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent / "web"
SCRIPTS = ["strings.js", "dom.js", "engine.js", "store.js", "day.js", "race.js", "have.js", "otherwise.js", "print.js",
           "after.js", "live.js", "squad.js", "files.js", "main.js"]
TYPE = "text/plain"


def packed(data):
    return base64.b64encode(gzip.compress(data, 9, mtime=0)).decode()


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


def digest(text):
    return "'sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode() + "'"


def page(carried, hosted):
    script = "\n".join((HERE / name).read_text() for name in SCRIPTS)
    style = (HERE / "style.css").read_text()
    rules = ["default-src 'none'", f"script-src {digest(script)} 'wasm-unsafe-eval' blob:", "worker-src blob:",
             f"style-src {digest(style)}", "connect-src 'none'", "img-src 'none'", "form-action 'none'", "base-uri 'none'"]
    head = ""
    if hosted:
        rules = [rule + " 'self'" if rule.startswith("worker-src") else rule for rule in rules] + ["manifest-src 'self'"]
        head = '<link rel="manifest" href="tuck.webmanifest">'
    blocks = "\n".join(f'<script type="{TYPE}" id="{name}">{text}</script>' for name, text in carried.items())
    text = (HERE / "index.html").read_text()
    for name, value in {"CSP": "; ".join(rules), "HEAD": head, "STYLE": style, "CARRIED": blocks, "SCRIPT": script}.items():
        text = text.replace(f"@{name}@", value)
    return text


def main():
    script, wasm, foods, *fonts, out = map(Path, sys.argv[1:])
    carried = {
        "engine-script": script.read_text(),
        "worker-script": (HERE / "worker.js").read_text(),
        "engine-wasm": packed(wasm.read_bytes()),
        "engine-foods": packed(files([(f"/foods/{p.name}", compact(p)) for p in sorted(foods.glob("*.json"))])),
        "engine-fonts": packed(files([(str(font), font.read_bytes()) for font in fonts])),
    }
    assert not any("</script" in text for text in carried.values())
    (out / "site").mkdir(parents=True, exist_ok=True)
    (out / "tuck.html").write_text(page(carried, hosted=False))
    hosted = page(carried, hosted=True)
    (out / "site/index.html").write_text(hosted)
    version = hashlib.sha256(hosted.encode()).hexdigest()[:12]
    (out / "site/offline.js").write_text((HERE / "offline.js").read_text().replace("@VERSION@", version))
    (out / "site/tuck.webmanifest").write_text(json.dumps(
        {"name": "tuck", "short_name": "tuck", "start_url": "./", "display": "standalone", "background_color": "#f3f5f2",
         "theme_color": "#0a5a45"}))
    for name in ("tuck.html", "site/index.html"):
        print(f"{out / name}: {(out / name).stat().st_size:,} bytes")


main()
