import { vitePreprocess } from "@sveltejs/vite-plugin-svelte";

export default {
  preprocess: vitePreprocess(),
  compilerOptions: {
    // The ledger becomes a list of cards on a narrow page; browsers then forget that it is a table
    // unless its roles are written out.
    warningFilter: (warning) => warning.code !== "a11y_no_redundant_roles",
  },
};
