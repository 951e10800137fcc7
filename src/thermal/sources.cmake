# Thermal resistance and transmittance, temperature profile.
bw_folder(thermal SOURCES thermal.c profile.c USES base assembly)
