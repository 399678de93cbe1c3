import { useEffect, useRef } from "react";
import type { Scene } from "../api.gen";
import { Picture } from "../drawing/picture";

/** PartPicture is one view cropped around one item, which is inked; it cannot be moved. */
export function PartPicture({
  scene,
  item,
  label,
}: {
  scene: Scene | undefined;
  item: string;
  label: string;
}) {
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
    const crop = () => {
      const wide = svg.clientWidth / Math.max(1, svg.clientHeight);
      const all = picture.bounds();
      const part = picture.box(`item:${item}`) ?? all;
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
  }, [scene, item]);
  return <svg className="part-picture" ref={box} role="img" aria-label={label} />;
}
