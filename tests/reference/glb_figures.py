#!/usr/bin/python3
"""What stands in a GLB file, read with nothing but the standard library: lines "volume <vein> <m3>" for the nodes under "veins",
then "bounds" with the least and greatest x, y, z of all positions (no node of ours turns or moves anything)."""
import json
import struct
import sys

data = open(sys.argv[1], "rb").read()
scene = json.loads(data[20 : 20 + struct.unpack("<I", data[12:16])[0]])
nodes = scene["nodes"]
for vein in next(node for node in nodes if node["name"] == "veins")["children"]:
    parts = [nodes[part]["extras"]["volume"] for part in nodes[vein].get("children", [])]
    print("volume", nodes[vein]["name"], repr(sum(parts)))
used = {p["attributes"]["POSITION"] for mesh in scene["meshes"] for p in mesh["primitives"]}
least = [min(scene["accessors"][a]["min"][k] for a in used) for k in range(3)]
most = [max(scene["accessors"][a]["max"][k] for a in used) for k in range(3)]
print("bounds", *(repr(value) for value in least + most))
