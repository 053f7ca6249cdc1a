"""The part of geographiclib that Evenstand uses."""

from .polygonarea import PolygonArea

class Geodesic:
    WGS84: Geodesic
    def Polygon(self, polyline: bool = ...) -> PolygonArea: ...
