" The lines of a formula and what is in them. Tested against the program's own parser on all examples.
if exists('b:current_syntax')
  finish
endif

syntax case ignore
syntax sync fromstart

" What a line begins with.
syntax match micheKeyword /^\s*\zs\(makes\|measures\|percent\s\+of\|percent\|per\s\+\w\+\|divide\|keeps\|spare\|aim\|desired\s\+temperature\|cooks\|cook\|longest\|open\|fine\s\+scale\|scale\|one\s\+weighs\|weighs\|water\|fat\|salt\|sugar\|protein\|carbohydrate\|fibre\|acid\|yield\|saturates\|trans\s\+fat\|added\s\+sugar\|polyols\|alcohol\|cholesterol\|vitamin\s\+D\|calcium\|iron\|potassium\|nitrogen\s\+factor\|compound\|best\s\+before\|serving\|drained\|use\s\+by\|energy\|counts\s\+as\s\+flour\|is\|not\s\+\(flour\|vegan\|vegetarian\)\|raw\s\+flour\|raw\s\+egg\|ready\s\+to\s\+eat\|bought\s\+by\|costs\|ready\)\ze\(\s\|$\)/ nextgroup=micheRest
syntax match micheKeyword /^\s*\zs\(source\|section\|contains\|also\s\+called\|listed\s\+as\|consists\s\+of\|sold\s\+as\|may\s\+contain\|batch\|business\|origin\|directions\|by\|filed\s\+under\|picture\|store\(\s\+\d\)\@!\)\ze\s/ nextgroup=micheWords skipwhite
syntax match micheWords /\S\_.\{-}\ze\s*\(\s#\(\s\|$\)\|$\)/ contained
syntax match micheKeyword /^\s*\zsuse\ze\s/ nextgroup=micheString skipwhite
" A log of bakes.
syntax match micheKeyword /^\s*\zsbakes\s\+of\ze\s*"/ nextgroup=micheString skipwhite
syntax match micheKeyword /^\s*\zsbake\ze\s\+\d\{4}-/ nextgroup=micheRest
syntax match micheKeyword /^\s*\zs\(room\|tap\|flour\s\+at\|preferment\s\+at\)\ze\(\s\+[−0-9-]\|\s*$\)/ nextgroup=micheRest
syntax match micheKeyword /^\s*\zsverdict\ze\(\s\+\(keep\|change\|drop\)\|\s*$\)/ nextgroup=micheWords skipwhite
syntax match micheKeyword /^\s*\zsby\ze\(\s[^:.]*\)\?$/ nextgroup=micheWords skipwhite
" A book.
syntax match micheKeyword /^\s*\zs\(book\|chapter\)\ze\s/ nextgroup=micheTitle skipwhite
syntax match micheKeyword /^\s*\zsaddress\ze\s/ nextgroup=micheWords skipwhite
syntax match micheKeyword /^\s*\zspage\ze\s*"/ nextgroup=micheRest
syntax match micheKeyword /^\s*\zs\(make\|store\)\ze\s/ nextgroup=micheRest
syntax match micheKeyword /^\s*\zsstock\ze\s/ nextgroup=micheString skipwhite
syntax match micheKeyword /^\s*\zschoose\ze\s/ nextgroup=micheChoice skipwhite
syntax match micheChoice /[^:,\[\]#]\{-}\ze\s*:/ contained nextgroup=micheOptions
syntax match micheOptions /:.\{-}\ze\s*\(\s#\(\s\|$\)\|$\)/ contained contains=micheOr,micheOption
syntax match micheOption /[^ \t:]\+/ contained
syntax match micheOr /\s\zsor\ze\s/ contained
syntax match micheKeyword /^\s*\zs\(recipe\|kitchen\|day\|ingredient\)\ze\s/ nextgroup=micheTitle skipwhite
syntax match micheTitle /\S.\{-}\ze\s*\(\s#\(\s\|$\)\|$\)/ contained
syntax match micheKeyword /^\s*\zspart\ze\s/ nextgroup=michePart skipwhite
syntax match michePart /[^,\[\]# \t][^,\[\]#]\{-}\ze\s*\(,\|\[\|\s#\(\s\|$\)\|$\)/ contained nextgroup=micheFrom,micheCondition skipwhite
syntax match micheFrom /,\s*from\s\+/ contained nextgroup=michePart
syntax match micheEquipment /^\s*\zs[^#,\[\]{}: \t.][^#,\[\]{}:.]\{-}\ze\s\+[x×]\s*\d/ nextgroup=micheRest

" What stands behind it.
syntax match micheRest /.*/ contained contains=micheNumber,micheDate,micheOn,micheString,micheCondition,micheComment,micheClause
syntax match micheClause /\<\(using\|at\s\+a\s\+time\|at\|up\s\+to\|may\s\+stand\|shared\s\+by\|into\|before\|then\|each\|people\|within\|straight\s\+after\|after\|during\|station\|of\|loss\|sizes\?\|chilled\|frozen\|per\|holds\|friction\|heating\|agrees\|choose\|ready\|made\|yield\|counts\s\+as\s\+flour\|not\s\+flour\|optional\|aside\|strained\s\+out\|instead\|from\s\+store\|leaves\|all\|to\s\+taste\|as\s\+needed\)\>/ contained
syntax match micheNumber /\(\k\|\.\)\@1<![−-]\?\(\d\+\([.,\/]\d\+\)*\s*[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]\?\|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]\)\(\s\+\d\+\/\d\+\)\?/ contained nextgroup=micheUnit skipwhite
syntax match micheUnit /\(%\|\(fl\s*oz\|[°º]\?\(mg\|kg\|g\|oz\|lb\|ml\|cl\|dl\|l\|tsp\|tbsp\|cups\?\|pt\|qt\|gal\|pieces\?\|mm\|cm\|m\|in\|s\|min\|h\|days\?\|weeks\?\|c\|f\)\)\>\)/ contained
" After numbers, because of two that begin at one place the later counts.
syntax match micheDate /\(\k\|[.-]\)\@1<!\d\{4}-\d\{1,2}-\d\{1,2}\(\k\|-\)\@!/ contained
syntax match micheOn /,\s*\zson\ze\s\+\d\{4}-/ contained
syntax match micheString /"[^"]*"\?/ contained
syntax match micheCondition /\[[^\[\]]*\]\ze\s*\(\s#\(\s.*\)\?\)\?$/ contained contains=micheMark,micheTaken
syntax match micheTaken /[^\[\], \t][^\[\],]*/ contained
syntax match micheMark /[\[\],]/ contained

" Ingredients: a name, a dotted leader, an amount.
syntax match micheIngredient /^\s*\zs[^ \t:,{}\[\]="…][^:,{}\[\]="…]\{-}\ze\s*\(\.\.\+\|…\)/ nextgroup=micheLeader skipwhite
syntax match micheLeader /\.\.\+\|…/ contained nextgroup=micheRest

" Steps: a head, then every deeper line.
syntax region micheStep start=/^\z(\s*\)[^ \t:,{}\[\]#="…][^:,{}\[\]="…]*:\s*\(hands\|tend\|wait\)\s/ end=/^\(\z1\s\+\S\|\s*$\)\@!/me=s-1 contains=micheHead,micheUntil,micheBrace,micheEscape,micheComment keepend
syntax match micheHead /[^:,{}\[\]#="… \t][^:,{}\[\]="…]\{-}\ze\s*:\s*\(hands\|tend\|wait\)\s/ contained nextgroup=micheKind
syntax match micheKind /\s*:\s*\(hands\|tend\|wait\)/ contained nextgroup=micheRest contains=micheColon
syntax match micheColon /\s*:\s*/ contained
syntax match micheUntil /^\s*\zsuntil\ze\s/ contained

" Notes, and the deeper lines that continue them.
syntax region micheText start=/^\z(\s*\)\(note\|caution\|credit\|story\)\(\s\|$\)/ end=/^\(\z1\s\+\S\|\s*$\)\@!/me=s-1 contains=micheTextWord,micheBrace,micheEscape,micheComment,micheCondition keepend
syntax match micheTextWord /^\s*\zs\(note\|caution\|credit\|story\)\ze\(\s\|$\)/ contained

" What the steps take.
syntax match micheBrace /{[^{}]*}/ contained contains=micheMeasure,micheShare,micheDrawn,micheBraceMark
syntax match micheBraceMark /[{}]/ contained
syntax match micheDrawn /[^{} \t][^{}]\{-}\ze\s*}/ contained
syntax match micheShare /{\@1<=\s*\(rest\|half\|[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞][^{}]\{-}\)\s\+of\s\+/ contained contains=micheNumber,micheOf nextgroup=micheDrawn
syntax match micheOf /\<\(rest\|half\|of\)\>/ contained
syntax match micheMeasure /{\@1<=\s*\([−-]\?[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞][0-9.,\/½⅓⅔¼¾⅛ –—-]*\([°º]\?[a-z]\+\|%\)\?\s*=\?\s*\)\+\ze}/ contained contains=micheNumber
syntax match micheEscape /\\[{}\[\]\\]/ contained

syntax match micheComment /\(^\|\s\)\@1<=#\(\s.*\)\?$/

highlight default link micheKeyword Keyword
highlight default link micheTextWord Keyword
highlight default link micheUntil Keyword
highlight default link micheKind Type
highlight default link micheClause Statement
highlight default link micheFrom Statement
highlight default link micheOr Operator
highlight default link micheOf Operator
highlight default link micheTitle Title
highlight default link michePart Structure
highlight default link micheHead Function
highlight default link micheIngredient Identifier
highlight default link micheDrawn Identifier
highlight default link micheLeader Delimiter
highlight default link micheMark Delimiter
highlight default link micheBraceMark Delimiter
highlight default link micheChoice Type
highlight default link micheOption Constant
highlight default link micheTaken Constant
highlight default link micheEquipment Type
highlight default link micheNumber Number
highlight default link micheDate Number
highlight default link micheOn Statement
highlight default link micheUnit Special
highlight default link micheString String
highlight default link micheWords String
highlight default link micheText String
highlight default link micheEscape SpecialChar
highlight default link micheComment Comment

let b:current_syntax = 'miche'
