# What instruments show.

reading-ohm = { $figure } Ω
reading-megohm = { $figure } MΩ
reading-volt = { $figure } V
reading-millisecond = { $figure } ms
# Off the scale at its upper end, and below its least figure.
reading-over = > { $reading }
reading-under = < { $reading }
# The lamps of a two-pole indicator.
reading-lights = lamps lit up to { $volts } V
reading-dark = no lamp lit
# A test may trip a device.
reading-and-opened = { $reading }; tripped: { $devices }

reading-refused-energised = locked out: there is voltage between the two points
reading-refused-no-supply = no supply between the two points
reading-refused-touch-voltage = stopped: the test would raise what is earthed above 50 V
reading-refused-tripped = no figure: the supply went off during the test
reading-refused-flat-battery = nothing on the display: flat battery
