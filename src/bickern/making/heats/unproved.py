"""What no print has confirmed about the order of work: said once on the sheet and on the terminal."""

HEATS_UNPROVED = (
    "Blows, heats and minutes are not validated by anything printed: orders of magnitude. At best, blows may be "
    "1.6 times as many or as few, heats 1.8 times: count your own."
)
COOLING_UNPROVED = (
    "Seconds in still air agree with the methods of textbooks; nothing measured was found for small iron in still air, "
    "nor for the anvil. Bars measured while they were rolled lost 4 to 6 % more heat than reckoned, in one pause half "
    "as much again: count on no more seconds than are told."
)
ABOUT_HEATS = (HEATS_UNPROVED, COOLING_UNPROVED)
"""All of them, in the order to say them."""
