"""A headless Chromium that opens one page: evaluates, presses keys, takes pictures, and tells what it asked for.

It speaks the Chrome DevTools Protocol over two pipes (--remote-debugging-pipe: file descriptors 3 and 4,
messages of JSON that end in a zero byte), so that no driver has to be installed.
"""

import base64
import json
import os
import shutil
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
PROGRAM = next(filter(None, map(shutil.which, NAMES)), None)
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--hide-scrollbars",
    "--remote-debugging-pipe",
)  # fmt: skip
KEYS = {"ArrowDown": 40, "ArrowUp": 38, "Escape": 27, "End": 35, "Home": 36}


class Tab:
    """One page, and everything that it reported: requests, errors, lines on the console."""

    def __init__(self, to: int, of: int) -> None:
        self.to, self.of, self.count, self.session, self.rest = to, of, 0, None, b""
        self.events: list[dict[str, Any]] = []

    def call(self, method: str, **parameters: object) -> dict[str, Any]:
        """Send a command and return its result; what else arrives meanwhile is kept."""
        self.count += 1
        message = {"id": self.count, "method": method, "params": parameters}
        if self.session:
            message["sessionId"] = self.session
        os.write(self.to, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._next()
            if answer.get("id") == self.count:
                assert "error" not in answer, answer
                return answer["result"]
            self.events.append(answer)

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self.rest:
            piece = os.read(self.of, 1 << 20)
            assert piece, "Chromium has ended"
            self.rest += piece
        text, _, self.rest = self.rest.partition(b"\0")
        return json.loads(text)

    def open(self, path: Path, fragment: str = "") -> None:
        """Load a file and wait for it."""
        self.go(path.absolute().as_uri() + fragment)

    def go(self, address: str) -> None:
        """Load an address and wait for it."""
        self.events.clear()
        self.call("Page.navigate", url=address)
        while not any(event["method"] == "Page.loadEventFired" for event in self.events):
            self.events.append(self._next())

    def run(self, script: str) -> Any:
        """Return the value of a JavaScript expression; wait where it is a promise."""
        result = self.call("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in result, result["exceptionDetails"]
        return result["result"].get("value")

    def key(self, name: str) -> None:
        """Press and release a key."""
        code = KEYS.get(name, ord(name[0].upper()))
        text = {"text": name} if len(name) == 1 else {}
        self.call("Input.dispatchKeyEvent", type="keyDown", key=name, windowsVirtualKeyCode=code, **text)
        self.call("Input.dispatchKeyEvent", type="keyUp", key=name, windowsVirtualKeyCode=code)

    def click(self, selector: str) -> None:
        """Click with the mouse in the middle of what a selector finds."""
        box = self.run(
            f"(()=>{{const e=document.querySelector({json.dumps(selector)});e.scrollIntoView({{block:'center'}});"
            "const b=e.getBoundingClientRect();return [b.x+b.width/2,b.y+b.height/2]})()"
        )
        for kind in ("mousePressed", "mouseReleased"):
            self.call("Input.dispatchMouseEvent", type=kind, x=box[0], y=box[1], button="left", clickCount=1)

    def download(self, selector: str, path: Path, seconds: float = 10.0) -> str:
        """Click on what gives a file of this name, and return its text."""
        self.call("Browser.setDownloadBehavior", behavior="allow", downloadPath=str(path.parent))
        self.click(selector)
        end = time.monotonic() + seconds
        while not (path.exists() and path.stat().st_size) and time.monotonic() < end:
            self.run("new Promise(done => setTimeout(done, 20))")
        return path.read_text(encoding="utf-8")

    def picture(self, path: Path, width: int, height: int = 900, *, dark: bool = False, media: str = "") -> None:
        """Write a picture of the page at this size, in a dark scheme if wanted."""
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)
        scheme = [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]
        self.call("Emulation.setEmulatedMedia", media=media, features=scheme)
        path.write_bytes(base64.b64decode(self.call("Page.captureScreenshot")["data"]))

    def pdf(self, path: Path) -> None:
        """Print the page."""
        path.write_bytes(base64.b64decode(self.call("Page.printToPDF", printBackground=True)["data"]))

    @property
    def asked_for(self) -> list[str]:
        """Every address that was requested."""
        sent = [event["params"] for event in self.events if event["method"] == "Network.requestWillBeSent"]
        return [parameters["request"]["url"] for parameters in sent]

    @property
    def complaints(self) -> list[dict[str, Any]]:
        """Exceptions, and errors and warnings on the console or in the log."""
        self.run("0")
        bad = [event for event in self.events if event["method"] == "Runtime.exceptionThrown"]
        bad += [event for event in self.events if event["method"] == "Log.entryAdded"]
        return bad + [event for event in self.events if event["method"] == "Runtime.consoleAPICalled"]


@contextmanager
def chromium() -> Iterator[Tab]:
    """Start Chromium with an empty profile, yield its page, and end it."""
    assert PROGRAM is not None
    theirs_in, to = os.pipe()
    of, theirs_out = os.pipe()

    def wire() -> None:
        saved = os.dup(theirs_out)  # descriptor 3 may be the one that has to become 4
        first = os.dup(theirs_in)
        os.dup2(first, 3)
        os.dup2(saved, 4)

    with tempfile.TemporaryDirectory(prefix="leapwright-browser-", ignore_cleanup_errors=True) as profile:
        process = subprocess.Popen(
            [PROGRAM, *FLAGS, f"--user-data-dir={profile}", "about:blank"],
            preexec_fn=wire, close_fds=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        os.close(theirs_in)
        os.close(theirs_out)
        try:
            tab = Tab(to, of)
            pages = tab.call("Target.getTargets")["targetInfos"]
            page = next(target["targetId"] for target in pages if target["type"] == "page")
            tab.session = tab.call("Target.attachToTarget", targetId=page, flatten=True)["sessionId"]
            for domain in ("Page", "Runtime", "Network", "Log"):
                tab.call(f"{domain}.enable")
            yield tab
        finally:
            process.kill()
            process.wait()
            os.close(to)
            os.close(of)
