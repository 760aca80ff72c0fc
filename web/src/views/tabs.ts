// Which tab a key leads to, from the open one; undefined where the key is none of the tabs'.
import { TABS, type Tab } from "./views.svelte";

export function nextTab(open: Tab, key: string): Tab | undefined {
  const at = TABS.indexOf(open);
  const last = TABS.length - 1;
  const to: Record<string, number> = {
    ArrowRight: at === last ? 0 : at + 1,
    ArrowLeft: at === 0 ? last : at - 1,
    Home: 0,
    End: last,
  };
  const next = to[key];
  return next === undefined ? undefined : TABS[next];
}
