// Only for development: the page with the mock beside it.
import { mergeConfig } from "vite";
import base from "../vite.config";
import { mock } from "./mock";

export default mergeConfig(base, { plugins: [mock()] });
