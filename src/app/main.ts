import "./app.css";
import { adoptThemes } from "./theme.ts";
import "./boughline-app.ts";

adoptThemes();
