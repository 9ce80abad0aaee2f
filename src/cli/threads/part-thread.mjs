// A thread does not inherit the translation of TypeScript from its parent (Node 20), so it asks for it before its program.
import { register } from "tsx/esm/api";

register();
await import("./part-thread-program.ts");
