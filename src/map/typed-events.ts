/** An event target whose events are named and whose details are typed by `Events`. */
export interface TypedEvents<Events extends object> {
  addEventListener<K extends keyof Events & string>(
    type: K,
    listener: (event: CustomEvent<Events[K]>) => void,
    options?: boolean | AddEventListenerOptions,
  ): void;
  removeEventListener<K extends keyof Events & string>(
    type: K,
    listener: (event: CustomEvent<Events[K]>) => void,
    options?: boolean | EventListenerOptions,
  ): void;
  dispatchEvent(event: Event): boolean;
}

/** The platform's `EventTarget` under the typed face. */
export const TypedEventTarget = EventTarget as unknown as new <Events extends object>() => TypedEvents<Events>;
