# National rule sets as data: what a rule may limit, and sets of them.
bw_folder(profile
  SOURCES profile_set.c terms.c
  USES base criterion)
