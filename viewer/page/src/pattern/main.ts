// The page to sew from: only its switches move.

import { watchPage } from "../switches";

watchPage(() => undefined);
