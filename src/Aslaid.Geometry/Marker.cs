namespace Aslaid.Geometry; internal static class Marker;
