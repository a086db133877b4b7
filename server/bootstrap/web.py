"""The web client: its packages from the lock, then its build into server/static."""

from server.bootstrap import stamps
from server.bootstrap.places import ROOT, STATIC, WEBCLIENT, environment, node, npm, tool
from server.bootstrap.run import run, telling


def web_packages() -> None:
    """Sees to it that webclient/node_modules holds what the lock says. No package's own scripts are run."""
    lists = [WEBCLIENT / name for name in ("package.json", "package-lock.json", ".npmrc")]
    mark = stamps.fingerprint(lists, node().parent.as_posix())
    if (WEBCLIENT / "node_modules").is_dir() and stamps.is_current("web-packages", mark):
        return
    with telling("Installing the web client's packages (about a quarter of a minute)"):
        run([*npm(), "ci", "--ignore-scripts", "--no-audit", "--no-fund"], cwd=WEBCLIENT, env=environment())
    stamps.keep("web-packages", mark)


def web_build() -> None:
    """Sees to it that server/static is built from what lies there now."""
    mark = stamps.fingerprint([WEBCLIENT, ROOT / "server" / "rules" / "data", ROOT / "server" / "words"])
    if (STATIC / "index.html").is_file() and stamps.is_current("web-build", mark):
        return
    with telling("Building the web client"):
        run([*tool("vite"), "build"], cwd=WEBCLIENT, env=environment())
    stamps.keep("web-build", mark)
