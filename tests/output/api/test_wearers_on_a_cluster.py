"""The same garment for several people, drafted by the processes of a cluster (the optional extra "cluster")."""

from __future__ import annotations

import importlib.util
import os

import pytest

from drafting.body.person import person
from output.api import Garment, block, draft_for

THERE = importlib.util.find_spec("distributed") is not None
NEEDED = os.environ.get("TRUESEAM_CLUSTER") == "needed"


@pytest.mark.skipif(not THERE and not NEEDED, reason="the extra cluster is not installed; .ci/run installs it")
def test_any_executor_drafts_as_this_process_does() -> None:
    from distributed import Client, LocalCluster

    people = [person({"height": 1600 + 40 * i, "bust": 900, "waist": 720, "hip": 980}, name=f"P{i}") for i in range(4)]
    skirt = Garment("Quay skirt", people[0], (block("skirt", length=600),))
    one_by_one = [draft_for(skirt, [each])[0] for each in people]
    with (
        LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster,
        Client(cluster) as client,
    ):
        found = draft_for(skirt, people, executor=client.get_executor())
    assert list(found) == one_by_one
    assert [each.name for each in found] == ["P0", "P1", "P2", "P3"]
