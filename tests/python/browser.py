"""A headless Chromium for tests, spoken to through its debugging pipe; nothing beyond the standard library."""

import base64
import contextlib
import json
import os
import shutil
import subprocess
import tempfile

FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update", "--hide-scrollbars", "--remote-debugging-pipe",
    "--disable-dev-shm-usage",
)  # fmt: skip


def found():
    """The browser's program, or None."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


class Page:
    """One page of one browser. asked: the URL of every request that it made."""

    def __init__(self, write, read):
        self.write, self.read, self.id, self.session, self.rest = write, read, 0, None, b""
        self.asked, self.loaded = [], 0
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Network", "Runtime"):
            self.call(f"{domain}.enable")

    def call(self, method, **parameters):
        self.id += 1
        message = {"id": self.id, "method": method, "params": parameters}
        if self.session is not None:
            message["sessionId"] = self.session
        os.write(self.write, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._next()
            if answer.get("id") == self.id:
                assert "error" not in answer, answer
                return answer["result"]

    def _next(self):
        while b"\0" not in self.rest:
            got = os.read(self.read, 1 << 20)
            assert got, "the browser went away"
            self.rest += got
        message, _, self.rest = self.rest.partition(b"\0")
        event = json.loads(message)
        if event.get("method") == "Network.requestWillBeSent":
            self.asked.append(event["params"]["request"]["url"])
        elif event.get("method") == "Page.loadEventFired":
            self.loaded += 1
        return event

    def open(self, url, width, height=900):
        """Opens a page in a window of this width, CSS pixels."""
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1,
                  mobile=width < 600)  # fmt: skip
        before = self.loaded
        self.call("Page.navigate", url=url)
        while self.loaded == before:
            self._next()

    def value(self, script):
        """What JavaScript, run from outside the page, makes of it."""
        answer = self.call("Runtime.evaluate", expression=script, returnByValue=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def picture(self, path):
        """The whole page as PNG."""
        size = self.call("Page.getLayoutMetrics")["cssContentSize"]
        clip = {"x": 0, "y": 0, "width": size["width"], "height": size["height"], "scale": 1}
        shot = self.call("Page.captureScreenshot", captureBeyondViewport=True, clip=clip)
        path.write_bytes(base64.b64decode(shot["data"]))

    def pdf(self, path):
        """The page as it is printed on A4."""
        printed = self.call("Page.printToPDF", preferCSSPageSize=True, printBackground=True)
        path.write_bytes(base64.b64decode(printed["data"]))


@contextlib.contextmanager
def page():
    """A page of a fresh browser, with a profile of its own that is thrown away."""
    to_browser, from_browser = os.pipe(), os.pipe()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:

        def as_3_and_4():
            read, write = os.dup(to_browser[0]), os.dup(from_browser[1])
            os.dup2(read, 3)
            os.dup2(write, 4)

        browser = subprocess.Popen(
            [found(), *FLAGS, f"--user-data-dir={profile}", "about:blank"],
            preexec_fn=as_3_and_4,
            close_fds=False,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "HOME": profile},
        )
        os.close(to_browser[0])
        os.close(from_browser[1])
        try:
            yield Page(to_browser[1], from_browser[0])
        finally:
            browser.terminate()
            browser.wait()
            os.close(to_browser[1])
            os.close(from_browser[0])
