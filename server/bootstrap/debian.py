"""Packages of the operating system: put in where we may, otherwise the exact line for the person to run."""

import os
import shutil
from collections.abc import Sequence

from server.bootstrap.run import Stop, run, telling


def install(packages: Sequence[str], what_for: str) -> None:
    """Installs Debian or Ubuntu packages as root or by a sudo that asks for no password; Stop otherwise."""
    names = " ".join(packages)
    apt = shutil.which("apt-get")
    before = _becoming_root()
    if apt is None or before is None:
        raise Stop(
            f"{what_for} needs packages of the operating system that are not here. On Debian or Ubuntu, run:\n\n"
            f"    sudo apt-get update && sudo apt-get install -y --no-install-recommends {names}\n\n"
            "and then this command again."
        )
    # By `env`, since sudo would not hand the setting on.
    quiet = [*before, "env", "DEBIAN_FRONTEND=noninteractive", apt]
    with telling(f"Installing packages of the operating system: {names}"):
        run([*quiet, "update"])
        run([*quiet, "install", "-y", "--no-install-recommends", *packages])


def _becoming_root() -> list[str] | None:
    """What to put before a command so that root runs it; None when only the person can do that."""
    if os.geteuid() == 0:
        return []
    sudo = shutil.which("sudo")
    if sudo is None:
        return None
    try:
        run([sudo, "-n", "true"])
    except Stop:
        return None
    return [sudo, "-n"]
