// Photographs as the workroom takes them in.

const most = 24e6; // pixels; larger pictures are made smaller here
const large = 30 * 2 ** 20; // bytes

// develop gives a JPEG or PNG of a size the workroom takes. One that is so
// already is left as it is; the workroom takes place and camera data out of
// all of them.
export async function develop(file) {
  const usual = file.type === "image/jpeg" || file.type === "image/png";
  let picture;
  try {
    picture = await createImageBitmap(file);
  } catch {
    if (usual && file.size < large) return file; // let the workroom say what is wrong with it
    throw new Error("This phone cannot read that picture. Have the camera save JPEG.");
  }
  const pixels = picture.width * picture.height;
  if (usual && pixels <= most && file.size < large) {
    picture.close();
    return file;
  }
  const scale = Math.min(1, Math.sqrt(most / pixels));
  const sheet = document.createElement("canvas");
  sheet.width = Math.floor(picture.width * scale);
  sheet.height = Math.floor(picture.height * scale);
  sheet.getContext("2d").drawImage(picture, 0, 0, sheet.width, sheet.height);
  picture.close();
  return new Promise((resolve, reject) => sheet.toBlob((blob) => (blob ? resolve(blob) : reject(new Error("The picture is too large for this phone."))), "image/jpeg", 0.92));
}
