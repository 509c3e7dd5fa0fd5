"""Earlier revisions of two texts, invented: the files as they are with something taken out.

The ratio sample before its major revision had no warning about fittings under pressure; the policy
before the one in the files said less about late entries and knew no job with two pumps, so that the
files' one waits in the demo and a second pump with it.
"""

import re
from collections.abc import Mapping

from app.curriculum.model import Curriculum

EARLIER_POLICY = "2024-2"
REVISED_MODULE = "ratio-sample"
_WARNING = re.compile(rb"(## fit-the-tube [^\n]*\n(?:figure: [^\n]*\n)?)caution: [^\n]*\n")


_TWO_PUMPS = re.compile(rb"\n(?:  #[^\n]*\n)*  - id: two-pumps\n(?:    [^\n]*\n)+")
_CREW_VERSION = re.compile(rb'(?m)^crew_version: "[^"]*"')


def earlier_module(curriculum: Curriculum) -> dict[str, bytes]:
    """The revised module's files at the revision before, without that warning."""
    module = curriculum.module(REVISED_MODULE)
    now, before = (b"\nrevision: %d\n" % n for n in (module.revision, module.revision - 1))
    return {
        path: _WARNING.sub(rb"\1", data.replace(now, before)) if path.endswith(".md") else data
        for path, data in module.files.items()
    }


def earlier_policy(curriculum: Curriculum) -> Mapping[str, bytes]:
    """The policy's files under an earlier version: one remark and one set of hands shorter."""
    changes = (
        (curriculum.policy_version.encode(), EARLIER_POLICY.encode()),
        (b"later entries need a second trainer's countersign", b"later entries need a countersign"),
    )
    files = dict(curriculum.policy_files)
    for old, new in changes:
        files["qualifications.yaml"] = files["qualifications.yaml"].replace(old, new, 1)
    version = b'crew_version: "%s"' % EARLIER_POLICY.encode()
    files["crew.yaml"] = _CREW_VERSION.sub(
        version, _TWO_PUMPS.sub(b"", files["crew.yaml"]), count=1
    )
    return files
