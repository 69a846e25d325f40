/** Labour for one unit of money, minutes: 75 to 150 an hour are common, so a unit is about half a minute (price guides, weak; estimate). */
export const minutesPerMoney = 0.5;
/** Minutes that any step costs besides its own: leads in hand, writing down (estimate). */
export const step_min = 0.3;
/** Later readings at a place that is open already take a third (practice tables, estimate). */
export const openShare = 1 / 3;
