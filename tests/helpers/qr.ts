import jsQR from 'jsqr';
import type { Page } from 'playwright-core';

/** What another library reads from the QR code on the screen; undefined where it reads nothing. */
export const qrOn = async (page: Page): Promise<string | undefined> => {
  const picture = await page.locator('svg.qr').screenshot();
  const seen = await page.evaluate(async (png) => {
    const bitmap = await createImageBitmap(new Blob([Uint8Array.from(atob(png), (one) => one.charCodeAt(0))]));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const drawn = canvas.getContext('2d') as OffscreenCanvasRenderingContext2D;
    drawn.drawImage(bitmap, 0, 0);
    const { data, width, height } = drawn.getImageData(0, 0, bitmap.width, bitmap.height);
    let green = '';
    for (let i = 1; i < data.length; i += 4) green += String.fromCharCode(data[i] ?? 0);
    return { green: btoa(green), width, height };
  }, picture.toString('base64'));
  const grey = Buffer.from(seen.green, 'base64');
  const rgba = Uint8ClampedArray.from({ length: 4 * grey.length }, (_, i) => (i % 4 === 3 ? 255 : (grey[i >> 2] ?? 0)));
  return jsQR(rgba, seen.width, seen.height, { inversionAttempts: 'dontInvert' })?.data;
};
