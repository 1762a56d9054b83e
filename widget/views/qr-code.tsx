import qrcode from "qrcode-generator";

/** White around the code, in modules, as the standard asks (ISO/IEC 18004). */
const QUIET = 4;

/** The text as a QR code of the smallest fitting size, with medium error correction: it survives a crease or a stain. */
export function QrCode({ text, label }: { text: string; label: string }) {
  const code = qrcode(0, "M");
  code.addData(text);
  code.make();
  const size = code.getModuleCount() + 2 * QUIET;
  return (
    <svg
      class="slip-qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={label}
      shape-rendering="crispEdges"
    >
      <path class="slip-qr-paper" d={`M0 0h${size}v${size}h-${size}z`} />
      <path class="slip-qr-ink" d={drawModules(code)} />
    </svg>
  );
}

/** One bar for each run of dark modules. */
function drawModules(code: ReturnType<typeof qrcode>): string {
  const count = code.getModuleCount();
  let path = "";
  for (let row = 0; row < count; row++) {
    for (let column = 0; column < count; column++) {
      if (!code.isDark(row, column)) continue;
      const start = column;
      while (column + 1 < count && code.isDark(row, column + 1)) column++;
      const length = column + 1 - start;
      path += `M${start + QUIET} ${row + QUIET}h${length}v1h-${length}z`;
    }
  }
  return path;
}
