"""The command: `trueseam draft`, `check`, `measure` and `list`. The one place that joins blocks and writers.

Exit status: 0 all checks pass (warnings allowed), 1 some check failed (the files are written, and the failure stands
on the first sheet), 2 the input cannot be used (nothing is written), 3 a fault of ours, 4 the work is done but
standard output could not be written, 130 stopped by the person.
"""

from __future__ import annotations

import gc
import os
import sys

__all__ = ["main"]


def main(arguments: list[str] | None = None) -> int:
    """Do what the words of a command line ask for; the exit status. Never raises.

    arguments: the words; None for those of this process, which is then taken to be all ours
    """
    words = sys.argv[1:] if arguments is None else arguments
    try:
        # next to nothing is imported before this, so that whoever stops it while modules load is answered too
        from output.command.streams import open_streams, output_failed, stop_once

        if arguments is None:
            stop_once()
            gc.disable()  # the process ends before much is left lying in circles: a tenth of the time of a check
            # numpy's library of matrices starts a thread for each core, which take a tenth of a draft; ours are small
            os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
        has_stdout = open_streams()
        if words == ["--version"]:
            from output import __version__

            try:
                print(f"trueseam {__version__}", flush=True)  # before anything heavy is imported
            except OSError as error:
                return output_failed(error)
            return 0 if has_stdout else output_failed(None)
        from output.command.run_command import run_command

        return run_command(words, has_stdout=has_stdout)
    except KeyboardInterrupt:
        from output.command.streams import report_stopped

        return report_stopped(as_json="--json" in words)
    finally:
        if arguments is None:
            gc.freeze()  # Python looks for circles once more when it ends: a fifth of the time of a check
