"""A trained network → ONNX: `python3 export.py --checkpoint conv.pt --out DIR [--precision float16]`.

Precisions: float32; float16 (weights stored in half the space and widened when loaded: same speed, same answers);
int8 (weights of the Linear layers in eight bits, one scale a column, activations measured as they pass).
Operators of opset 14 only, which onnxruntime 1.14 and @xenova/transformers read. Besides the network the folder gets
config.json, preprocessor_config.json and phones.json (the tokens in the order of the scores).
"""

import argparse
import json
import os

import numpy as np
import onnx
import torch
from onnx import TensorProto, helper, numpy_helper

from lexicon import TOKENS
from model import Network, build, unpack

BIG = 1024


def load(path: str) -> Network:
    saved = torch.load(path, map_location="cpu")
    network = build(saved["name"])
    unpack(network, saved["weights"])
    return network.eval()


def fold_norms(network: Network) -> None:
    """Put each batch norm into the depthwise convolution before it."""
    for layer in network.layers:
        if hasattr(layer, "depthwise"):
            layer.depthwise = torch.nn.utils.fuse_conv_bn_eval(layer.depthwise, layer.norm)
            layer.norm = torch.nn.Identity()


def to_onnx(network: Network, path: str) -> onnx.ModelProto:
    fold_norms(network)
    options = {"dynamo": False} if "dynamo" in torch.onnx.export.__code__.co_varnames else {}
    torch.onnx.export(network, torch.randn(1, 32000), path, input_names=["input_values"], output_names=["logits"],
                      dynamic_axes={"input_values": {0: "batch", 1: "samples"}, "logits": {0: "batch", 1: "frames"}},
                      opset_version=14, do_constant_folding=True, **options)
    model = onnx.load(path)
    model.ir_version = 8
    return model


def halve_weights(model: onnx.ModelProto) -> None:
    """Big constants become float16 followed by a widening Cast, which the runtime does once, on loading."""
    casts = []
    for weight in model.graph.initializer:
        if weight.data_type != TensorProto.FLOAT or np.prod(weight.dims) < BIG:
            continue
        name = weight.name
        half = numpy_helper.from_array(numpy_helper.to_array(weight).astype(np.float16), name + "_half")
        weight.CopyFrom(half)
        casts.append(helper.make_node("Cast", [name + "_half"], [name], to=TensorProto.FLOAT))
    nodes = list(model.graph.node)
    del model.graph.node[:]
    model.graph.node.extend(casts + nodes)


def eight_bits(model: onnx.ModelProto) -> None:
    """MatMul by a constant → DynamicQuantizeLinear, MatMulInteger, scale back.

    Weights are unsigned with their zero at 128: signed ones overflow on processors without VNNI.
    """
    weights = {w.name: w for w in model.graph.initializer}
    nodes = []
    for node in model.graph.node:
        weight = weights.get(node.input[1]) if node.op_type == "MatMul" else None
        if weight is None or len(weight.dims) != 2 or np.prod(weight.dims) < BIG:
            nodes.append(node)
            continue
        values, name = numpy_helper.to_array(weight), weight.name
        scale = np.abs(values).max(0) / 127 + 1e-12
        model.graph.initializer.remove(weight)
        model.graph.initializer.extend([
            numpy_helper.from_array((np.round(values / scale) + 128).astype(np.uint8), name + "_uint8"),
            numpy_helper.from_array(scale.astype(np.float32), name + "_scale"),
            numpy_helper.from_array(np.array(128, np.uint8), name + "_zero")])
        x, y = node.input[0], node.output[0]
        nodes += [
            helper.make_node("DynamicQuantizeLinear", [x], [y + "_q", y + "_s", y + "_z"]),
            helper.make_node("MatMulInteger", [y + "_q", name + "_uint8", y + "_z", name + "_zero"], [y + "_i"]),
            helper.make_node("Cast", [y + "_i"], [y + "_f"], to=TensorProto.FLOAT),
            helper.make_node("Mul", [y + "_s", name + "_scale"], [y + "_k"]),
            helper.make_node("Mul", [y + "_f", y + "_k"], [y])]
    del model.graph.node[:]
    model.graph.node.extend(nodes)


def write_configuration(folder: str) -> None:
    content = {
        "config.json": {"model_type": "wav2vec2", "architectures": ["Wav2Vec2ForCTC"], "vocab_size": len(TOKENS)},
        "preprocessor_config.json": {
            "feature_extractor_type": "Wav2Vec2FeatureExtractor", "do_normalize": True, "sampling_rate": 16000,
            "feature_size": 1, "padding_value": 0.0, "return_attention_mask": False},
        "phones.json": TOKENS,
    }
    for name, value in content.items():
        with open(os.path.join(folder, name), "w", encoding="utf8") as f:
            f.write(json.dumps(value, indent=2 if isinstance(value, dict) else None) + "\n")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--checkpoint", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--precision", default="float16", choices=["float32", "float16", "int8"])
    args = parser.parse_args()
    os.makedirs(os.path.join(args.out, "onnx"), exist_ok=True)
    path = os.path.join(args.out, "onnx", "model.onnx")
    model = to_onnx(load(args.checkpoint), path)
    if args.precision == "int8":
        eight_bits(model)
    if args.precision != "float32":
        halve_weights(model)
    onnx.checker.check_model(model)
    onnx.save(model, path)
    write_configuration(args.out)
    print(f"{path}: {os.path.getsize(path) / 1e6:.1f} MB, {args.precision}")


if __name__ == "__main__":
    main()
