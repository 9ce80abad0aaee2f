import { defineConfig } from "vitest/config";

/** The tests of the stages under mutation alone: each mutant runs them anew. */
export default defineConfig({
  test: {
    include: JSON.parse(process.env.MUTATION_TESTS ?? '["tests/core/**/*.test.ts"]') as string[],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    isolate: false,
  },
});
