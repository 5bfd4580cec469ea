"""The built zip is installed, used and removed in a Blender of its own, as a person would do it."""

import json
import os
import subprocess
import sys
import tomllib
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.addon.hosts import HOSTS, OWN

PACKAGE = "bl_ext.user_default.leapwright"
Facts = dict[str, object]
Run = Callable[[str, Path], Facts]

INSTALL = """
bpy.ops.extensions.package_install_files(repo="user_default", filepath=argument, enable_on_install=True)
"""
ENABLE = f"""
import addon_utils
addon_utils.enable("{PACKAGE}", default_set=True)
"""
LOOK = f"""
facts["enabled"] = "{PACKAGE}" in bpy.context.preferences.addons
facts["operator"] = hasattr(bpy.types, "LEAPWRIGHT_OT_audit_jump")
facts["label"] = bpy.ops.leapwright.audit_jump.get_rna_type().name if facts["operator"] else None
"""
AUDIT = f"""
sys.modules["scipy"] = None  # whoever imports it now fails
import numpy as np
from {PACKAGE}.analysis import Track, audit_track
frames = np.arange(1, 41)
air = (frames - 15) / 24  # up at 3 m/s from frame 15
flight = 1 + 3 * air - 9.80665 / 2 * air**2
height = np.where(frames < 15, 0.7 + 0.3 * np.clip((frames - 10.2) / 4.8, 0, 1) ** 2, np.maximum(flight, 0.8))
audit = audit_track(Track("Moss", 24, frames, [[0, 0, z] for z in height]))
facts["jumps"] = len(audit.jumps)
facts["host"] = bpy.app.version_string
"""
UNINSTALL = """
repos = bpy.context.preferences.extensions.repos
index = [repo.module for repo in repos].index("user_default")
bpy.ops.extensions.package_uninstall(repo_index=index, pkg_id="leapwright")
"""


@pytest.fixture
def run(tmp_path: Path) -> Run:
    """Return a function that runs code in a new Blender process with a user folder of this test's own."""
    home = tmp_path / "home"
    environment = os.environ | {"BLENDER_USER_RESOURCES": str(tmp_path / "blender"), "HOME": str(home)}
    home.mkdir()

    def call(code: str, argument: Path = tmp_path, host: str = OWN) -> Facts:
        result = tmp_path / "facts.json"
        result.unlink(missing_ok=True)
        start = f"import json, sys\nimport bpy\nargument, facts = {str(argument)!r}, {{}}\n"
        end = f"\nwith open({str(result)!r}, 'w') as file:\n    json.dump(facts, file)\n"
        # Run away from the checkout, so that its folders are not imported in place of the extension's.
        done = subprocess.run([str(HOSTS[host]), "-c", start + code + end], capture_output=True, text=True,
                              env=environment, cwd=tmp_path, timeout=300)
        assert done.returncode == 0, done.stdout + done.stderr
        return json.loads(result.read_text(encoding="utf-8"))

    return call


def test_the_zip_holds_the_add_on_and_nothing_else_and_is_small(extension_zip: Path, root: Path) -> None:
    with zipfile.ZipFile(extension_zip) as archive:
        names = archive.namelist()
        manifest = tomllib.loads(archive.read("blender_manifest.toml").decode())
    top = {name.removeprefix("leapwright/").split("/")[0] for name in names} - {""}
    assert top == {"__init__.py", "LICENSE", "blender_manifest.toml", "addon", "analysis"}
    assert not [name for name in names if "__pycache__" in name]
    assert not {"platforms", "wheels"} & set(manifest)  # one for every system and every Python
    assert extension_zip.name == f"leapwright-{manifest['version']}.zip"
    # The zip cannot be larger than the files that it holds.
    assert extension_zip.stat().st_size < sum(path.stat().st_size for name in ("addon", "analysis", "LICENSE")
                                              for path in [root / name, *(root / name).rglob("*.py")])  # fmt: skip


@pytest.mark.parametrize("host", HOSTS)
def test_an_installed_extension_works_after_a_restart_and_leaves_nothing(
    host: str, extension_zip: Path, run: Run, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    user = tmp_path / "blender" / "extensions"
    expected = {"enabled": True, "operator": True, "label": "Audit Jump"}
    assert run(INSTALL + LOOK, extension_zip, host) == expected
    assert (user / "user_default" / "leapwright" / "blender_manifest.toml").is_file()

    again = run(ENABLE + LOOK + AUDIT, host=host)
    release = again.pop("host")
    assert again.pop("jumps") == 1
    assert again == expected
    with capsys.disabled():
        print(f"\n{extension_zip.name}, {extension_zip.stat().st_size / 1e3:.0f} kB, installed in Blender {release}")

    gone = run(ENABLE + UNINSTALL + LOOK, host=host)
    assert not gone["enabled"]
    assert not gone["operator"]
    assert not (user / "user_default" / "leapwright").exists()


def test_a_linked_checkout_runs_as_an_extension(run: Run, root: Path, tmp_path: Path) -> None:
    folder = tmp_path / "blender" / "extensions"
    link = [sys.executable, str(root / ".make" / "link.py"), "--extensions", str(folder)]
    done = subprocess.run(link, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    facts = run(ENABLE + LOOK + f"""
from pathlib import Path
facts["file"] = str(Path(sys.modules["{PACKAGE}.addon"].__file__).resolve())
""")
    assert facts["enabled"] and facts["operator"]
    assert Path(str(facts["file"])) == root / "addon" / "__init__.py"
