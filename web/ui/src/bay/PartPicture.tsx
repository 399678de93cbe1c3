import { useEffect, useRef } from "react";
import type { Scene } from "../api.gen";
import { Picture } from "../drawing/picture";
import type { Rect } from "../drawing/viewport";

interface Props {
  scene: Scene | undefined;
  item: string;
  /** where the item stands, least and greatest corner in millimetres; empty where that is not known */
  box: readonly number[];
  label: string;
}

/** onSheet is where a box in van axes stands in a view. */
function onSheet(view: string, [x0, y0, z0, x1, y1, z1]: readonly number[]): Rect | null {
  if (x0 === undefined || y0 === undefined || z0 === undefined) return null;
  if (x1 === undefined || y1 === undefined || z1 === undefined) return null;
  if (view === "plan") return { x0, y0: -y1, x1, y1: -y0 };
  const up = { y0: -z1, y1: -z0 };
  return view === "right" ? { x0: -x1, x1: -x0, ...up } : { x0, x1, ...up };
}

/** outlined draws a part that is shut in, and so not drawn itself. */
function outlined({ x0, y0, x1, y1 }: Rect): SVGElement {
  const ns = "http://www.w3.org/2000/svg";
  const group = document.createElementNS(ns, "g");
  group.setAttribute("class", "inked");
  const path = document.createElementNS(ns, "path");
  path.setAttribute("d", `M${x0} ${y0}H${x1}V${y1}H${x0}Z`);
  group.append(path);
  return group;
}

/** PartPicture is one view cropped around one item, which is inked; it cannot be moved. */
export function PartPicture({ scene, item, box: extent, label }: Props) {
  const box = useRef<SVGSVGElement>(null);
  useEffect(() => {
    const svg = box.current;
    if (svg === null || scene === undefined) return;
    const picture = new Picture(scene.id, true);
    svg.replaceChildren(picture.root);
    picture.show(scene);
    for (const prim of picture.prims()) {
      if (/^(label|balloon):/.test(prim.id)) picture.node(prim.id)?.remove();
      picture.node(prim.id)?.removeAttribute("tabindex");
    }
    const node = picture.node(`item:${item}`);
    node?.classList.add("inked");
    if (node !== undefined) picture.root.append(node);
    const hidden = node === undefined ? onSheet(scene.id, extent) : null;
    if (hidden !== null) picture.root.append(outlined(hidden));
    const crop = () => {
      const wide = svg.clientWidth / Math.max(1, svg.clientHeight);
      const all = picture.bounds();
      const part = picture.box(`item:${item}`) ?? hidden ?? all;
      const margin = 700;
      let [x0, x1] = [part.x0 - margin, part.x1 + margin];
      let [y0, y1] = [part.y0 - margin, part.y1 + margin];
      const [w, h] = [Math.max(x1 - x0, (y1 - y0) * wide), Math.max(y1 - y0, (x1 - x0) / wide)];
      const [cx, cy] = [(x0 + x1) / 2, (y0 + y1) / 2];
      [x0, x1, y0, y1] = [cx - w / 2, cx + w / 2, cy - h / 2, cy + h / 2];
      svg.setAttribute("viewBox", `${x0} ${y0} ${w} ${h}`);
      svg.style.setProperty("--least", `${(11 * w) / Math.max(1, svg.clientWidth)}px`);
    };
    crop();
    const watch = new ResizeObserver(crop);
    watch.observe(svg);
    return () => watch.disconnect();
  }, [scene, item, extent]);
  return <svg className="part-picture" ref={box} role="img" aria-label={label} />;
}
