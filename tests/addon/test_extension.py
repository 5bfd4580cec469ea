"""The built zip, installed, used and removed in a Blender of its own, as a person's would do it."""

import json
import os
import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

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
SCIPY = f"""
from {PACKAGE}.analysis import audit_track
import scipy.optimize
facts["scipy"] = scipy.__file__
facts["root"] = scipy.optimize.brentq(lambda side: side * side - 2, 0, 2)
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

    def call(code: str, argument: Path = tmp_path) -> Facts:
        result = tmp_path / "facts.json"
        result.unlink(missing_ok=True)
        start = f"import json, sys\nimport bpy\nargument, facts = {str(argument)!r}, {{}}\n"
        end = f"\nwith open({str(result)!r}, 'w') as file:\n    json.dump(facts, file)\n"
        # Away from the checkout, whose own folders must not be found in place of the extension's.
        done = subprocess.run([sys.executable, "-c", start + code + end], capture_output=True, text=True,
                              env=environment, cwd=tmp_path, timeout=300)
        assert done.returncode == 0, done.stdout + done.stderr
        return json.loads(result.read_text(encoding="utf-8"))

    return call


def test_the_zip_holds_the_add_on_and_two_wheels_of_scipy_and_nothing_else(extension_zip: Path) -> None:
    with zipfile.ZipFile(extension_zip) as archive:
        names = archive.namelist()
    top = {name.removeprefix("leapwright/").split("/")[0] for name in names} - {""}
    assert top == {"__init__.py", "LICENSE", "blender_manifest.toml", "addon", "analysis", "wheels"}
    wheels = [name for name in names if name.endswith(".whl")]
    assert {wheel.split("-")[2] for wheel in wheels} == {"cp311", "cp313"}
    assert not [name for name in names if "__pycache__" in name]


def test_an_installed_extension_works_after_a_restart_and_leaves_nothing(
    extension_zip: Path, run: Run, tmp_path: Path
) -> None:
    user = tmp_path / "blender" / "extensions"
    expected = {"enabled": True, "operator": True, "label": "Audit Jump"}
    assert run(INSTALL + LOOK, extension_zip) == expected
    assert (user / "user_default" / "leapwright" / "blender_manifest.toml").is_file()

    again = run(ENABLE + LOOK + SCIPY)
    # This environment has a scipy of its own; the extension's wheel comes first.
    assert Path(str(again.pop("scipy"))).is_relative_to(user / ".local")
    assert again.pop("root") == pytest.approx(2**0.5)
    assert again == expected

    gone = run(ENABLE + UNINSTALL + LOOK)
    assert not gone["enabled"]
    assert not gone["operator"]
    assert not (user / "user_default" / "leapwright").exists()
    assert not list(user.glob(".local/lib/*/site-packages/scipy"))


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
