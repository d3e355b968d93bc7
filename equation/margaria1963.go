package equation

// MargariaRunCost is the net energy of running on the flat in J per kg and
// metre, 1 kcal/kg/km at any speed: R. Margaria, P. Cerretelli, P. Aghemo and
// G. Sassi 1963, J Appl Physiol 18:367-370 (from memory). People differ by about
// 10 % either way; it is the slope of [RunOxygen] in other units.
const MargariaRunCost = 4.184
