/** Every demo and published circuit as `solve --json` prints it, from the file RECORDS or else from Python. */
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

function readRecords() {
  if (process.env.RECORDS) return readFileSync(process.env.RECORDS, "utf8");
  const done = spawnSync(process.env.PYTHON ?? "python3", ["-m", "tests.measure.records"], { cwd: root, encoding: "utf8", maxBuffer: 1 << 26 });
  if (done.status !== 0) throw new Error(done.stderr || `${done.error}`);
  return done.stdout;
}

/** @returns {{kind: "demo" | "published", example: object}[]} */
export const loadRecords = () => readRecords().trim().split("\n").map((line) => JSON.parse(line));

/** One circuit by its address. */
export const findExample = (records, address) => records.find(({ example }) => example.address === address).example;
