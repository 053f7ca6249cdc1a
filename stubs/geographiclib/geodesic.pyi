"""The part of geographiclib that Evenstand uses."""

from .polygonarea import PolygonArea

class Geodesic:
    WGS84: Geodesic
    def Polygon(self, polyline: bool = ...) -> PolygonArea: ...
    def Inverse(self, lat1: float, lon1: float, lat2: float, lon2: float) -> dict[str, float]: ...
