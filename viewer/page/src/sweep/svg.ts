// Elements of drawings, and round numbers for the marks of their axes.

const SVG = "http://www.w3.org/2000/svg";

export function add(parent: Element, tag: string, values: Record<string, string | number>, text = ""): SVGElement {
  const element = document.createElementNS(SVG, tag);
  for (const [key, value] of Object.entries(values)) {
    element.setAttribute(key, typeof value === "number" ? String(Number(value.toFixed(2))) : value);
  }
  if (text) element.textContent = text;
  parent.append(element);
  return element;
}

export function listTicks(low: number, high: number, most: number): number[] {
  const size = (high - low) / most;
  const decade = 10 ** Math.floor(Math.log10(size));
  const step = [1, 2, 5, 10].map((each) => each * decade).find((each) => each >= size * (1 - 1e-9))!;
  const first = Math.ceil(low / step - 1e-9), last = Math.floor(high / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, place) => Number(((first + place) * step).toPrecision(12)));
}

// Marks differ by shape, not by colour alone.
export function drawMark(parent: Element, kind: "passing" | "failing" | "best", x: number, y: number): SVGElement {
  if (kind === "passing") return add(parent, "circle", { class: kind, cx: x, cy: y, r: 4 });
  const d = kind === "best" ? "m0,-7l7,7l-7,7l-7,-7z" : "m-4,-4l8,8m0,-8l-8,8";
  return add(parent, "path", { class: kind, d: `M${x.toFixed(1)},${y.toFixed(1)}${d}` });
}
