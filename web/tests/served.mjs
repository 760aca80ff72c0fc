// The program with a project open, as a person starts it: its address, and its end.
import { spawn } from "node:child_process";

const ADDRESS = /http:\/\/127\.0\.0\.1:\d+/;

export async function served(program, project) {
  const server = spawn(program, ["serve", project, "--port", "0"], { stdio: ["ignore", "pipe", "inherit"] });
  const ended = new Promise((resolve) => server.once("exit", resolve));
  const url = await Promise.race([
    new Promise((resolve) => {
      let said = "";
      server.stdout.on("data", (text) => {
        said += text;
        const found = ADDRESS.exec(said);
        if (found) resolve(found[0]);
      });
    }),
    ended.then((code) => Promise.reject(new Error(`rootstead serve ended with ${code}`))),
  ]);
  const stop = (signal) => {
    server.kill(signal);
    return ended;
  };
  return { url, stop };
}
