"""Lines, points and words on a plane, and how they are written as DXF, SVG and PDF; nothing here knows a hammock."""
