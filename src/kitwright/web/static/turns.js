// Rigid motions as arrays of 16 numbers, column by column, as a matrix3d() has them.

/** What hangs on a score from start to end, folded by an angle in degrees; above zero it rises on the print side. */
export function hingeTurn(start, end, angle) {
  const length = Math.hypot(end[0] - start[0], end[1] - start[1]);
  const x = (end[0] - start[0]) / length;
  const y = (end[1] - start[1]) / length;
  const [c, s] = cosineSine(-angle);
  const rest = 1 - c;
  const r = [c + rest * x * x, rest * x * y, -s * y, rest * x * y, c + rest * y * y, s * x, s * y, -s * x, c];
  const [px, py] = start;
  return [
    r[0], r[1], r[2], 0, r[3], r[4], r[5], 0, r[6], r[7], r[8], 0,
    px - r[0] * px - r[3] * py, py - r[1] * px - r[4] * py, -r[2] * px - r[5] * py, 1,
  ];
}

function cosineSine(degrees) {
  const quarters = Math.round(degrees / 90);
  if (quarters * 90 === degrees) return [[1, 0], [0, 1], [-1, 0], [0, -1]][((quarters % 4) + 4) % 4];
  return [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
}

/** The same motion on a screen, where y points down and a millimetre is so many pixels. */
export function onScreen(m, pixels) {
  return [
    m[0], -m[1], m[2], 0, -m[4], m[5], -m[6], 0, m[8], -m[9], m[10], 0,
    m[12] * pixels, -m[13] * pixels, m[14] * pixels, 1,
  ];
}

/** Between two motions: turned the shorter way, moved in a straight line. Exact at both ends. */
export function between(a, b, share) {
  if (share <= 0) return a;
  if (share >= 1) return b;
  const p = quaternion(a);
  let q = quaternion(b);
  let dot = p.reduce((sum, each, i) => sum + each * q[i], 0);
  if (dot < 0) { q = q.map((each) => -each); dot = -dot; }
  const angle = Math.acos(Math.min(1, dot));
  const [s, t] = angle < 1e-6 ? [1 - share, share] : [Math.sin((1 - share) * angle) / Math.sin(angle), Math.sin(share * angle) / Math.sin(angle)];
  const [w, x, y, z] = p.map((each, i) => each * s + q[i] * t);
  const mix = (i) => a[i] + (b[i] - a[i]) * share;
  return [
    1 - 2 * (y * y + z * z), 2 * (x * y + w * z), 2 * (x * z - w * y), 0,
    2 * (x * y - w * z), 1 - 2 * (x * x + z * z), 2 * (y * z + w * x), 0,
    2 * (x * z + w * y), 2 * (y * z - w * x), 1 - 2 * (x * x + y * y), 0,
    mix(12), mix(13), mix(14), 1,
  ];
}

function quaternion(m) {
  const [xx, yx, zx, , xy, yy, zy, , xz, yz, zz] = m;
  const w = Math.sqrt(Math.max(0, 1 + xx + yy + zz)) / 2;
  const x = Math.sqrt(Math.max(0, 1 + xx - yy - zz)) / 2;
  const y = Math.sqrt(Math.max(0, 1 - xx + yy - zz)) / 2;
  const z = Math.sqrt(Math.max(0, 1 - xx - yy + zz)) / 2;
  const largest = Math.max(w, x, y, z);
  if (largest === w) return [w, Math.sign(zy - yz) * x, Math.sign(xz - zx) * y, Math.sign(yx - xy) * z];
  if (largest === x) return [Math.sign(zy - yz) * w, x, Math.sign(yx + xy) * y, Math.sign(zx + xz) * z];
  if (largest === y) return [Math.sign(xz - zx) * w, Math.sign(yx + xy) * x, y, Math.sign(zy + yz) * z];
  return [Math.sign(yx - xy) * w, Math.sign(zx + xz) * x, Math.sign(zy + yz) * y, z];
}
