"""The mean of the weights of runs that began alike: `python3 mix.py --out mean.pt ONE.pt OTHER.pt …`."""

import argparse

import torch


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", required=True)
    parser.add_argument("checkpoints", nargs="+")
    args = parser.parse_args()
    runs = [torch.load(path, map_location="cpu") for path in args.checkpoints]
    if len({run["name"] for run in runs}) > 1:
        raise SystemExit(f"Only runs of one network can be averaged; these are {sorted({run['name'] for run in runs})}.")
    first = runs[0]["weights"]
    mean = {name: torch.stack([run["weights"][name].float() for run in runs]).mean(0).to(value.dtype) for name, value in first.items()}
    torch.save({**runs[0], "weights": mean}, args.out)


if __name__ == "__main__":
    main()
