#!/usr/bin/python3
"""Volume, area and sections of a closed solid in a PLY file by VTK (Debian python3-vtk9), beside this project's own.

Argument: the file, binary little-endian, all vertex properties doubles. Standard input: lines "x y z nx ny nz", planes.
Writes "points triangles volume area", then for each plane the perimeter and the area of the section and the volume of the part
that the normal points to.
VTK's reader of PLY knows single precision alone: it gives the triangles, the points are read here as they stand in the file.
"""
import sys

import numpy
import vtk
from vtk.util.numpy_support import numpy_to_vtk


def points_of(file):
    data = open(file, "rb").read()
    header, body = data.split(b"end_header\n", 1)
    words = [line.split() for line in header.decode("ascii").splitlines()]
    count = next(int(line[2]) for line in words if line[:2] == ["element", "vertex"])
    columns = sum(1 for line in words if line[:2] == ["property", "double"])
    return numpy.frombuffer(body, "<f8", count * columns).reshape(count, columns)[:, :3].copy()


def mass(data):
    triangles = vtk.vtkTriangleFilter()
    triangles.SetInputData(data)
    properties = vtk.vtkMassProperties()
    properties.SetInputConnection(triangles.GetOutputPort())
    return properties.GetVolume(), properties.GetSurfaceArea()


def length(lines):
    points, total = lines.GetPoints(), 0.0
    for i in range(lines.GetNumberOfCells()):
        cell = lines.GetCell(i)
        for k in range(cell.GetNumberOfPoints() - 1):
            a, b = (numpy.array(points.GetPoint(cell.GetPointId(k + j))) for j in (0, 1))
            total += numpy.linalg.norm(b - a)
    return total


def by_plane(solid, origin, normal):
    plane = vtk.vtkPlane()
    plane.SetOrigin(origin)
    plane.SetNormal(normal)
    cutter = vtk.vtkCutter()
    cutter.SetInputData(solid)
    cutter.SetCutFunction(plane)
    cutter.Update()
    planes = vtk.vtkPlaneCollection()
    planes.AddItem(plane)
    closed = vtk.vtkClipClosedSurface()
    closed.SetInputData(solid)
    closed.SetClippingPlanes(planes)
    closed.SetTolerance(1e-12)
    closed.Update()
    open_part = vtk.vtkClipPolyData()
    open_part.SetInputData(solid)
    open_part.SetClipFunction(plane)
    open_part.Update()
    volume, area = mass(closed.GetOutput())
    return length(cutter.GetOutput()), area - mass(open_part.GetOutput())[1], volume


reader = vtk.vtkPLYReader()
reader.SetFileName(sys.argv[1])
reader.Update()
solid = reader.GetOutput()
points = vtk.vtkPoints()
points.SetDataTypeToDouble()
points.SetData(numpy_to_vtk(points_of(sys.argv[1]), deep=True))
solid.SetPoints(points)
print(solid.GetNumberOfPoints(), solid.GetNumberOfCells(), "%.17g %.17g" % mass(solid))
for line in sys.stdin:
    values = [float(cell) for cell in line.split()]
    print("%.17g %.17g %.17g" % by_plane(solid, values[:3], values[3:]))
