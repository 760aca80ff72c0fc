import { defineConfig } from "vitest/config";
import { svelte } from "@sveltejs/vite-plugin-svelte";

// Nothing is inlined: the server's content policy lets scripts and styles come from files only.
export default defineConfig({
  plugins: [svelte()],
  build: {
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 700,
  },
  test: { include: ["tests/**/*.test.ts"], environment: "node" },
});
