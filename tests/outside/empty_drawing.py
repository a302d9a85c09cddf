"""The empty drawing that every DXF of ours begins from, as ezdxf writes it; a test holds the file to this.

python -m tests.outside.empty_drawing       writes output/dxf/empty_drawing.dxf anew
"""

from __future__ import annotations

import io
from pathlib import Path

from output.dxf.dxf_layers import APP, LAYER_NAMES
from output.dxf.load_ezdxf import load_ezdxf

EMPTY = Path(__file__).parents[2] / "output" / "dxf" / "empty_drawing.dxf"


def empty_drawing() -> bytes:
    """A new R2000 drawing in millimetres with our layers, its dates and ids those the library fixes for tests."""
    load_ezdxf()
    from ezdxf import options, units  # type: ignore[attr-defined]
    from ezdxf.filemanagement import new

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        document = new("R2000", units=units.MM)
        document.header["$MEASUREMENT"] = 1
        document.appids.add(APP)
        for layer, description in LAYER_NAMES.items():
            document.layers.add(layer.value).description = description
        stream = io.StringIO()
        document.write(stream)
        return bytes(document.encode(stream.getvalue()))
    finally:
        options.write_fixed_meta_data_for_testing = before


if __name__ == "__main__":
    EMPTY.write_bytes(empty_drawing())
