import { defineConfig } from "vitest/config";

// One at a time: each has a server and a browser of its own, and two cores are enough for one pair.
export default defineConfig({
  test: { include: ["browser/**/*.test.ts"], environment: "node", fileParallelism: false, testTimeout: 120_000, hookTimeout: 120_000 },
});
