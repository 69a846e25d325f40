/** Standing sign of a current's direction, pointing right about its middle; filled `ink` with a line of paper colour so that it stands out on any potential. */
export const chevron = 'M-3.4 -7.5L2.6 0L-3.4 7.5H.4L6.4 0L.4 -7.5Z';
