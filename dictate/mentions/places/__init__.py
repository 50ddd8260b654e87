"""Where a value was read: the part, the point on it, which of several.

places           where it was measured: the component, the point on it, which of several
default_points   where a value was read when nobody says it
default_grounds  pins of a motor for what was read from all of them to the shell
pins_to_ground   pins of a motor that were read to the shell one by one
across_filters   pressures on both sides of a filter or strainer
across_things    differences over a thing, and temperatures on both sides of a valve or a drier
filter_drops     pressures that air loses in its filters
pump_sides       pressures of water before and behind a pump
coils_and_defrosts  coils spoken of before, and what is read while a defrost is on
looked_up        pressures said again to look up their temperature
ohms_go_on       ohms that go on with the thing under test until another is named
default_legs     legs of a three-phase supply for values told in a row without them
air_sides        both sides of a coil, a barrel or an exchanger
told_frames      places that a longer frame around a value tells, once all values are taken
told_places      places of temperatures and pressures that the frame around a value tells
told_behind      places told by a name shortly before or behind a value, and differences that add up
told_by_sides    sides, legs and air that small words tell
possible_points  points that a quantity can have at all, and legs of a row told to the ground
told_static      a pressure that stood, and the one while it flows
told_supplies    volts read where the supply comes in, and what a part gives out
told_parts       parts of readings that are not electrical, told by the frame around a value
rows_of_points   values and points said in rows
rows_again       rows of values that come again for the next of several things, without their places
"""
