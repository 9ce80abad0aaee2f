import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "node",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/browser/**"],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
      {
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          testTimeout: 180_000,
          hookTimeout: 180_000,
          // Software rendering on a busy machine answers late; a wrong answer stays wrong however long one waits.
          expect: { poll: { timeout: 20_000 } },
          fileParallelism: false,
        },
      },
    ],
  },
});
