import { execFileSync } from "node:child_process";
import { chromiumPath } from "./chromium.ts";

// Run before the browser tests: finds Chromium, installs Debian's when this is Debian and root, or says in one line what to install.

function isThere(): boolean {
  try {
    chromiumPath();
    return true;
  } catch {
    return false;
  }
}

function hasAptGet(): boolean {
  try {
    execFileSync("/bin/sh", ["-c", "command -v apt-get"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
}

if (!isThere() && process.getuid?.() === 0 && hasAptGet()) {
  process.stdout.write("Installing Debian's chromium for the browser tests\n");
  const environment = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  execFileSync("apt-get", ["update", "-qq"], { stdio: ["ignore", "ignore", "inherit"], env: environment });
  execFileSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium", "fonts-dejavu-core"], {
    stdio: ["ignore", "ignore", "inherit"],
    env: environment,
  });
}
if (!isThere()) {
  process.stderr.write(
    "The browser tests need Chromium: install it (Debian: apt-get install chromium fonts-dejavu-core) or set CHROMIUM to its path.\n",
  );
  process.exit(1);
}
