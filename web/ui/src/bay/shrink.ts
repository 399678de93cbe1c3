/** most bytes of a photo that the server keeps */
const most = 5 << 20;
const widest = 2048;

/** shrink makes a photo small enough to send from a bay: at most 2,048 pixels wide or high. */
export async function shrink(file: Blob): Promise<Blob> {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const by = Math.min(1, widest / Math.max(picture.width, picture.height));
  const paper = new OffscreenCanvas(Math.round(picture.width * by), Math.round(picture.height * by));
  paper.getContext("2d")?.drawImage(picture, 0, 0, paper.width, paper.height);
  picture.close();
  for (const quality of [0.85, 0.6, 0.4]) {
    const out = await paper.convertToBlob({ type: "image/jpeg", quality });
    if (out.size <= most) return out;
  }
  throw new Error("the photo stays too large");
}
