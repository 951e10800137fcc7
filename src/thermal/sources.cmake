# Thermal resistance and transmittance, temperatures.
bw_folder(thermal SOURCES thermal.c temperatures.c USES base material assembly)
