import { createRoot } from "react-dom/client";
import { App } from "./App";
import { followLight } from "./frame/light";
import { follow } from "./store/route";
import "./style/paper.css";
import "./style/controls.css";
import "./style/frame.css";
import "./style/forms.css";
import "./style/grid.css";
import "./style/drawing.css";
import "./style/sheets.css";
import "./style/side.css";
import "./style/fit.css";

followLight();
follow();

const page = document.getElementById("page");
if (page === null) throw new Error("the page has no place to stand");
createRoot(page).render(<App />);
