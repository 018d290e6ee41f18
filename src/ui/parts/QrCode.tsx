/** Light modules around a QR code: ISO/IEC 18004, 5.3.8. */
const MARGIN = 4;

/** Rows; true is dark. */
export type Modules = readonly (readonly boolean[])[];

/** A link for a camera. */
export function QrCode(props: { readonly code: Modules }) {
  const { code } = props;
  const size = code.length + 2 * MARGIN;
  const path = code
    .flatMap((row, y) => row.map((dark, x) => (dark ? `M${x + MARGIN} ${y + MARGIN}h1v1h-1z` : '')))
    .join('');
  return (
    <svg
      class="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label="QR code of the link"
      shape-rendering="crispEdges"
    >
      <path d={path} fill="currentColor" />
    </svg>
  );
}
