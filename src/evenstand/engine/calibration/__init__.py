"""The metering curve and the lever.

What is believed of a drill's meters from its chart and catches, and which notch and gear to use
next.

Open to other rooms: advice, chart, choose, meter.
"""
