/** What a hand, wheel or key asks of a map; places in pixels of the map's window. */
export interface Gestures {
  readonly pan: (dxPx: number, dyPx: number) => void;
  readonly zoom: (factor: number, xPx: number, yPx: number) => void;
  readonly tap: (xPx: number, yPx: number) => void;
}

/** Farther than this a finger has dragged, not tapped. */
const TAP_PX = 9;
const KEY_PAN_PX = 60;
const KEY_ZOOM = 1.4;

/** Turns pointers, the wheel and keys on an element into gestures. One pointer drags, two pinch. */
export function listenToGestures(target: HTMLElement, { pan, zoom, tap }: Gestures): void {
  const pointers = new Map<number, { x: number; y: number }>();
  let traveledPx = 0;
  const place = (event: PointerEvent | WheelEvent) => {
    const box = target.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  target.addEventListener("pointerdown", (event) => {
    if (pointers.size === 0) traveledPx = 0;
    pointers.set(event.pointerId, place(event));
    target.setPointerCapture(event.pointerId);
  });
  target.addEventListener("pointermove", (event) => {
    const before = pointers.get(event.pointerId);
    if (before === undefined) return;
    const after = place(event);
    const other = [...pointers].find(([id]) => id !== event.pointerId)?.[1];
    pointers.set(event.pointerId, after);
    const [dx, dy] = [after.x - before.x, after.y - before.y];
    traveledPx += Math.hypot(dx, dy);
    if (other === undefined) {
      if (traveledPx > TAP_PX) pan(dx, dy);
      return;
    }
    traveledPx += TAP_PX;
    const spread = (one: { x: number; y: number }) => Math.max(1, Math.hypot(one.x - other.x, one.y - other.y));
    zoom(spread(after) / spread(before), (after.x + other.x) / 2, (after.y + other.y) / 2);
    pan(dx / 2, dy / 2);
  });
  const lift = (event: PointerEvent, isTap: boolean) => {
    if (!pointers.delete(event.pointerId)) return;
    if (isTap && pointers.size === 0 && traveledPx <= TAP_PX) {
      const { x, y } = place(event);
      tap(x, y);
    }
  };
  target.addEventListener("pointerup", (event) => lift(event, true));
  target.addEventListener("pointercancel", (event) => lift(event, false));
  target.addEventListener(
    "wheel",
    (event) => {
      event.preventDefault();
      const { x, y } = place(event);
      zoom(Math.exp(-event.deltaY / 400), x, y);
    },
    { passive: false },
  );
  target.addEventListener("keydown", (event) => {
    const box = target.getBoundingClientRect();
    const act = {
      ArrowLeft: () => pan(KEY_PAN_PX, 0),
      ArrowRight: () => pan(-KEY_PAN_PX, 0),
      ArrowUp: () => pan(0, KEY_PAN_PX),
      ArrowDown: () => pan(0, -KEY_PAN_PX),
      "+": () => zoom(KEY_ZOOM, box.width / 2, box.height / 2),
      "=": () => zoom(KEY_ZOOM, box.width / 2, box.height / 2),
      "-": () => zoom(1 / KEY_ZOOM, box.width / 2, box.height / 2),
    }[event.key];
    if (act === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    act();
  });
}
