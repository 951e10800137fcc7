# fish completion of bothways. Written by src/completion/generate.sh
# from the command's own help; not to be edited.

set -g __bothways_profiles 'list default au-ncc ca-obc de-din4108 dk fr-2011 fr-2019 no se uk-nhbc us-irc'

function __bothways_first
    test (count (commandline -opc)) -eq 1
end

function __bothways_verb
    set -l words (commandline -opc)
    test (count $words) -gt 1; and test $words[2] = $argv[1]
end

# VERB [WORD]: these, and nothing else, stand before the cursor
function __bothways_operand
    set -l words (commandline -opc)[2..-1]
    test "$words" = "$argv"
end

function __bothways_materials
    bothways materials --format csv 2>/dev/null |
        string match -r '^[^,]+' | tail -n +2
end

complete -c bothways -f
complete -c bothways -n __bothways_first -s h -l help -d 'show the verbs'
complete -c bothways -n __bothways_first -l version -d 'show the version'
complete -c bothways -n __bothways_first -a check -d 'judge walls: verdict per criterion, reason, what to change'
complete -c bothways -n __bothways_first -a compare -d 'two to eight walls side by side, with what is held equal'
complete -c bothways -n __bothways_first -a margin -d 'how far each unknown may go before a criterion flips'
complete -c bothways -n __bothways_first -a audit -d 'the reviewer\'s sheet: every input, its evidence, the hold point'
complete -c bothways -n __bothways_first -a import -d 'a gbXML construction becomes a skeleton to complete'
complete -c bothways -n __bothways_first -a materials -d 'list, show, search or validate materials and their sources'
complete -c bothways -n '__bothways_verb check' -a '(__fish_complete_suffix .xml)'
complete -c bothways -n '__bothways_verb check' -l climate -r -F -d 'use this climate instead of the one the assembly names'
complete -c bothways -n '__bothways_verb check' -s f -l format -x -a 'text csv json html' -d 'a report to read, a table (csv), all tables (json), a page with charts (html)'
complete -c bothways -n '__bothways_verb check' -s o -l output -r -F -d 'write there instead of to standard output'
complete -c bothways -n '__bothways_verb check' -l tables -x -a '(__fish_complete_directories)' -d 'also write every result table there as CSV'
complete -c bothways -n '__bothways_verb check' -l step -x -d 'hourly table: one row for so many hours, 1 to 8760 (means; 1)'
complete -c bothways -n '__bothways_verb check' -l profile -x -a "$__bothways_profiles" -d 'national rule set; "list" shows them with their sources'
complete -c bothways -n '__bothways_verb check' -l materials -x -a '(__fish_complete_directories)' -d 'materials that add to and override the shipped ones; may be repeated'
complete -c bothways -n '__bothways_verb check' -l set -x -d 'change the wall as it is read, the file stays; may be repeated'
complete -c bothways -n '__bothways_verb check' -l monthly-only -d 'no hourly simulation, the monthly method alone'
complete -c bothways -n '__bothways_verb check' -l no-synthetic-hours -d 'no simulation on hours generated from a monthly climate'
complete -c bothways -n '__bothways_verb check' -l from-readings -d 'start the simulation from the moisture readings of <closing-up>'
complete -c bothways -n '__bothways_verb check' -l no-advice -d 'do not look for changes that would help: sooner done'
complete -c bothways -n '__bothways_verb check' -l cells -x -d 'simulation: every cell in N parts, 1 to 8 (1)'
complete -c bothways -n '__bothways_verb check' -l tolerance -x -d 'simulation: error in time aimed at, as in "0.01 K"'
complete -c bothways -n '__bothways_verb check' -l years -x -d 'simulation: most years, 1 to 30 (10)'
complete -c bothways -n '__bothways_verb check' -l start-month -x -d 'simulation: month it starts in, 1 to 12 (10)'
complete -c bothways -n '__bothways_verb check' -l converge -d 'also how much a simulation depends on its cells and steps (slow)'
complete -c bothways -n '__bothways_verb check' -l threads -x -d 'threads to compute on; without it one a core'
complete -c bothways -n '__bothways_verb check' -s q -l quiet -d 'the summary alone, no progress bar'
complete -c bothways -n '__bothways_verb check' -l no-colour -d 'no bold type on a terminal (NO_COLOR does the same)'
complete -c bothways -n '__bothways_verb check' -s h -l help -d 'show this help'
complete -c bothways -n '__bothways_verb check' -l version -d 'show the version'
complete -c bothways -n '__bothways_verb compare' -a '(__fish_complete_suffix .xml)'
complete -c bothways -n '__bothways_verb compare' -l climate -r -F -d 'use this climate instead of the one the assembly names'
complete -c bothways -n '__bothways_verb compare' -s f -l format -x -a 'text csv json html' -d 'a report to read, a table (csv), all tables (json), a page with charts (html)'
complete -c bothways -n '__bothways_verb compare' -s o -l output -r -F -d 'write there instead of to standard output'
complete -c bothways -n '__bothways_verb compare' -l tables -x -a '(__fish_complete_directories)' -d 'also write every result table there as CSV'
complete -c bothways -n '__bothways_verb compare' -l step -x -d 'hourly table: one row for so many hours, 1 to 8760 (means; 1)'
complete -c bothways -n '__bothways_verb compare' -l profile -x -a "$__bothways_profiles" -d 'national rule set; "list" shows them with their sources'
complete -c bothways -n '__bothways_verb compare' -l materials -x -a '(__fish_complete_directories)' -d 'materials that add to and override the shipped ones; may be repeated'
complete -c bothways -n '__bothways_verb compare' -l set -x -d 'change the wall as it is read, the file stays; may be repeated'
complete -c bothways -n '__bothways_verb compare' -l monthly-only -d 'no hourly simulation, the monthly method alone'
complete -c bothways -n '__bothways_verb compare' -l no-synthetic-hours -d 'no simulation on hours generated from a monthly climate'
complete -c bothways -n '__bothways_verb compare' -l cells -x -d 'simulation: every cell in N parts, 1 to 8 (1)'
complete -c bothways -n '__bothways_verb compare' -l tolerance -x -d 'simulation: error in time aimed at, as in "0.01 K"'
complete -c bothways -n '__bothways_verb compare' -l years -x -d 'simulation: most years, 1 to 30 (10)'
complete -c bothways -n '__bothways_verb compare' -l start-month -x -d 'simulation: month it starts in, 1 to 12 (10)'
complete -c bothways -n '__bothways_verb compare' -l equal -x -a 'u thickness drawn' -d 'what is held equal, by the thickness of one layer'
complete -c bothways -n '__bothways_verb compare' -l scale-layer -x -d 'the layer to rescale; without it the main insulation'
complete -c bothways -n '__bothways_verb compare' -l as-drawn -d 'compare walls in different climates or rooms all the same'
complete -c bothways -n '__bothways_verb compare' -s q -l quiet -d 'the summary alone, no progress bar'
complete -c bothways -n '__bothways_verb compare' -l no-colour -d 'no bold type on a terminal (NO_COLOR does the same)'
complete -c bothways -n '__bothways_verb compare' -s h -l help -d 'show this help'
complete -c bothways -n '__bothways_verb compare' -l version -d 'show the version'
complete -c bothways -n '__bothways_verb margin' -a '(__fish_complete_suffix .xml)'
complete -c bothways -n '__bothways_verb margin' -l climate -r -F -d 'use this climate instead of the one the assembly names'
complete -c bothways -n '__bothways_verb margin' -s f -l format -x -a 'text csv json html' -d 'a report to read, a table (csv), all tables (json), a page with charts (html)'
complete -c bothways -n '__bothways_verb margin' -s o -l output -r -F -d 'write there instead of to standard output'
complete -c bothways -n '__bothways_verb margin' -l tables -x -a '(__fish_complete_directories)' -d 'also write every result table there as CSV'
complete -c bothways -n '__bothways_verb margin' -l profile -x -a "$__bothways_profiles" -d 'national rule set; "list" shows them with their sources'
complete -c bothways -n '__bothways_verb margin' -l materials -x -a '(__fish_complete_directories)' -d 'materials that add to and override the shipped ones; may be repeated'
complete -c bothways -n '__bothways_verb margin' -l set -x -d 'change the wall as it is read, the file stays; may be repeated'
complete -c bothways -n '__bothways_verb margin' -l monthly-only -d 'no hourly simulation, the monthly method alone'
complete -c bothways -n '__bothways_verb margin' -l no-synthetic-hours -d 'no simulation on hours generated from a monthly climate'
complete -c bothways -n '__bothways_verb margin' -l cells -x -d 'simulation: every cell in N parts, 1 to 8 (1)'
complete -c bothways -n '__bothways_verb margin' -l tolerance -x -d 'simulation: error in time aimed at, as in "0.01 K"'
complete -c bothways -n '__bothways_verb margin' -l years -x -d 'simulation: most years, 1 to 30 (10)'
complete -c bothways -n '__bothways_verb margin' -l start-month -x -d 'simulation: month it starts in, 1 to 12 (10)'
complete -c bothways -n '__bothways_verb margin' -l ensemble -x -d 'also N cases with all unknowns at once, quasi-random'
complete -c bothways -n '__bothways_verb margin' -l threads -x -d 'threads to compute on; without it one a core'
complete -c bothways -n '__bothways_verb margin' -l transient -d 'simulate every case hour by hour (slow)'
complete -c bothways -n '__bothways_verb margin' -s q -l quiet -d 'the summary alone, no progress bar'
complete -c bothways -n '__bothways_verb margin' -l no-colour -d 'no bold type on a terminal (NO_COLOR does the same)'
complete -c bothways -n '__bothways_verb margin' -s h -l help -d 'show this help'
complete -c bothways -n '__bothways_verb margin' -l version -d 'show the version'
complete -c bothways -n '__bothways_verb audit' -a '(__fish_complete_suffix .xml)'
complete -c bothways -n '__bothways_verb audit' -l climate -r -F -d 'use this climate instead of the one the assembly names'
complete -c bothways -n '__bothways_verb audit' -s f -l format -x -a 'text csv json html' -d 'a report to read, a table (csv), all tables (json), a page with charts (html)'
complete -c bothways -n '__bothways_verb audit' -s o -l output -r -F -d 'write there instead of to standard output'
complete -c bothways -n '__bothways_verb audit' -l tables -x -a '(__fish_complete_directories)' -d 'also write every result table there as CSV'
complete -c bothways -n '__bothways_verb audit' -l step -x -d 'hourly table: one row for so many hours, 1 to 8760 (means; 1)'
complete -c bothways -n '__bothways_verb audit' -l profile -x -a "$__bothways_profiles" -d 'national rule set; "list" shows them with their sources'
complete -c bothways -n '__bothways_verb audit' -l materials -x -a '(__fish_complete_directories)' -d 'materials that add to and override the shipped ones; may be repeated'
complete -c bothways -n '__bothways_verb audit' -l set -x -d 'change the wall as it is read, the file stays; may be repeated'
complete -c bothways -n '__bothways_verb audit' -l monthly-only -d 'no hourly simulation, the monthly method alone'
complete -c bothways -n '__bothways_verb audit' -l no-synthetic-hours -d 'no simulation on hours generated from a monthly climate'
complete -c bothways -n '__bothways_verb audit' -l threads -x -d 'threads to compute on; without it one a core'
complete -c bothways -n '__bothways_verb audit' -s q -l quiet -d 'the summary alone, no progress bar'
complete -c bothways -n '__bothways_verb audit' -l no-colour -d 'no bold type on a terminal (NO_COLOR does the same)'
complete -c bothways -n '__bothways_verb audit' -s h -l help -d 'show this help'
complete -c bothways -n '__bothways_verb audit' -l version -d 'show the version'
complete -c bothways -n '__bothways_verb import' -a '(__fish_complete_suffix .xml)'
complete -c bothways -n '__bothways_verb import' -s o -l output -r -F -d 'write there instead of to standard output'
complete -c bothways -n '__bothways_verb import' -l construction -x -d 'which construction of the file'
complete -c bothways -n '__bothways_verb import' -l permeance-unit -x -d 'unit of a PermSI, which the format leaves open'
complete -c bothways -n '__bothways_verb import' -s q -l quiet -d 'the summary alone, no progress bar'
complete -c bothways -n '__bothways_verb import' -s h -l help -d 'show this help'
complete -c bothways -n '__bothways_verb import' -l version -d 'show the version'
complete -c bothways -n '__bothways_operand materials' -a list
complete -c bothways -n '__bothways_operand materials' -a '(__bothways_materials)'
complete -c bothways -n '__bothways_operand materials' -a show
complete -c bothways -n '__bothways_operand materials show' -a '(__bothways_materials)'
complete -c bothways -n '__bothways_operand materials' -a search
complete -c bothways -n '__bothways_operand materials' -a validate
complete -c bothways -n '__bothways_operand materials validate' -a '(__fish_complete_directories)'
complete -c bothways -n '__bothways_verb materials' -s f -l format -x -a 'text csv json' -d 'a list to read, or a table (csv, json)'
complete -c bothways -n '__bothways_verb materials' -s o -l output -r -F -d 'write there instead of to standard output'
complete -c bothways -n '__bothways_verb materials' -l materials -x -a '(__fish_complete_directories)' -d 'materials that add to and override the shipped ones; may be repeated'
complete -c bothways -n '__bothways_verb materials' -s q -l quiet -d 'the summary alone, no progress bar'
complete -c bothways -n '__bothways_verb materials' -l no-colour -d 'no bold type on a terminal (NO_COLOR does the same)'
complete -c bothways -n '__bothways_verb materials' -s h -l help -d 'show this help'
complete -c bothways -n '__bothways_verb materials' -l version -d 'show the version'
