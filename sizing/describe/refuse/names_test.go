package refuse

// refused are names of what is not described, with the subject; inflected forms and spellings are from memory.
const refused = `
restraint     Airbag
restraint     driver air-bag module
restraint     Passenger air  bag lamp
restraint     AIR BAGS
restraint     Frontairbag links
restraint     Seitenairbag rechts
restraint     a.i.r.b.a.g feed
restraint     S.R.S. feed
restraint     S R S
restraint     S-R-S lamp
restraint     SRS1
restraint     dash_srs_feed
restraint     SIR module
restraint     S.I.R.
restraint     ORC
restraint     Module OCS rear
restraint     RCM
restraint     Seat belt tensioner
restraint     Left seatbelt pretensioner
restraint     Belt pre-tensioners
restraint     belt tensioner driver
restraint     Seat belt pretensioner left
restraint     squib 2
restraint     Pyrotechnic battery cut-off
restraint     pyro fuse
restraint     Crash sensors front
restraint     knee airbag
restraint     Supplemental Inflatable Restraint
restraint     Аirbаg
restraint     ΑΙRΒΑG
restraint     ＡＩＲＢＡＧ
restraint     ａｉｒ ｂａｇ
restraint     𝐚𝐢𝐫𝐛𝐚𝐠
restraint     Ⓢ Ⓡ Ⓢ
restraint     ЅRЅ
restraint     aırbag
restraint     ᴀɪʀʙᴀɢ
restraint     Gurtstraffer vorn
restraint     GURTSTRAFFER
restraint     Rueckhaltesystem
restraint     Ruckhaltesystem
restraint     Zündpille
restraint     Zuendpillen
restraint     ausfahrbarer Ueberrollbuegel
restraint     Beifahrerairbagabschaltung
restraint     prétensionneurs
restraint     pretensionneur avant
restraint     coussins gonflables
restraint     système de retenue
restraint     SYSTEME DE RETENUE
restraint     bolsas de aire
restraint     pretensores del cinturón
restraint     cojin inflable
restraint     cuscini gonfiabili
restraint     pretensionatori cinture
restraint     veiligheidsgordelspanner
restraint     gordijnairbags
restraint     poduszkę powietrzną
restraint     poduszek powietrznych
restraint     poduszce powietrznej
restraint     poduszki kierowcy
restraint     napinacze pasów
restraint     napinaczy pasow
restraint     kurtyny powietrzne
restraint     zapłonnika poduszki
restraint     подушки безопасности
restraint     подушек безопасности
restraint     Модуль подушкой безопасности
restraint     подушка водителя
restraint     преднатяжителя ремня
restraint     натяжитель ремня безопасности
restraint     пиропатроны
restraint     шторки безопасности
restraint     блок СНПБ
restraint     エアバッグ
restraint     エアバック
restraint     ｴｱﾊﾞｯｸﾞ
restraint     ｴｱﾊﾞｯｸユニット
restraint     エアーバッグ
restraint     えあばっぐ
restraint     運転席エアバッグ配線
restraint     SRSユニット
restraint     プリテンショナ
restraint     ﾌﾟﾘﾃﾝｼｮﾅｰ
restraint     点火具
high voltage  HV traction battery 400 V
high voltage  High-voltage loom
high voltage  traction supply
high voltage  HV junction
high voltage  H.V. cable
high voltage  HVIL
high voltage  orange cable front
high voltage  charge port
high voltage  CCS inlet pins
high voltage  CHAdeMO
high voltage  drive batteries
high voltage  pack 400 V
high voltage  pack 400V
high voltage  pack ４００Ｖ
high voltage  feed, 48 V AC
high voltage  60 V feed
high voltage  inverter output 230 V
high voltage  220 В
high voltage  400 volts
high voltage  230-V-Dose
high voltage  feed 1,000 V
high voltage  feed 1 000 V
high voltage  9…60 V
high voltage  0–100 V
high voltage  2x60 V string
high voltage  80 Vmax
high voltage  400V~
high voltage  5 kV
restraint     srsUnit
restraint     sacs gonflables
restraint     Gasgenerator links
high voltage  110VAC feed
high voltage  Hochvoltkabel
high voltage  HV-Batterie
high voltage  Antriebsbatterien
high voltage  batterie de traction
high voltage  baterías de tracción
high voltage  batterie di trazione
high voltage  tractiebatterijen
high voltage  akumulatora trakcyjnego
high voltage  тяговой батареи
high voltage  тяговая аккумуляторная батарея
high voltage  высоковольтной системы
high voltage  駆動用バッテリー
high voltage  高電圧ケーブル
mains         mains socket 230 V
mains         Mains
mains         mains charger inlet
mains         shore inlet 230 V
mains         Shore power
mains         Hook-up
mains         Landstromanschluss
mains         Netzspannung
mains         prise secteur
mains         walstroom
mains         zasilanie sieciowe
mains         сетевое напряжение
`

// sound are names of what a vehicle has, most of them with a word inside that would be
// refused if it stood alone; the traps are those of the list of words and our own.
const sound = `
HVAC blower
HVAC
Alarm siren
Siren
Every lamp
Reverse lamp
EV
Cigar lighter
Zigarettenanzünder
Zigarettenanzuender
Zündung
Zündschloss
Anzünder hinten
allumeur
allume-cigare
accendisigari
accenditore
encendedor
прикуриватель
Ontsteking
aansteker
poduszka silnika
poduszki silnika
подушка двигателя
подушки двигателя
подушка опоры двигателя
poduszka powietrzna zawieszenia
napinacz paska
napinacz paska alternatora
натяжитель ремня
Drive belt tensioner
Fan belt tensioner
Alternator belt tensioner
Überrollkäfig
Roll cage lamp
Roll bar lamp
Inertia switch
Inertia fuel switch
Crash fuel cut-off
Igniter
Ignition module
Tyre inflator
Repair bag lamp
Stair bag
Chair bag heater
Child restraint lamp
Traction control switch
Traction control
traction avant
USB charge port
USB charging port
Phone charge port
prise de recharge USB
Trailer hook-up
Hook-up wire spare
Main fuse
Main beam
Main switch
Mainspring
12 V feed
48 V feed
24 V AC sensor
13,8 V supply
3.0 V6 engine loom
V8 engine
Solar panel 45 V
LM6012V
6012 Volvo-type plug
BMS
Contactor
Pre-charge relay
PTC heater
DC-DC converter
convertidor
On-board charger
Startergenerator
Service lamp
Service hatch
Pilot lamp
Orange lamp
Isolator
Sector lamp
secteur avant
coussin chauffant
Seat cushion heater
Gas heater
Water mains
Load levelling airbags
Pop-up bonnet lamp
Airbag compressor
59,9 V
230 Ah
60 W/12 V
12-24 V
48 Vdc
Ballast resistor
A/C clutch
Knock sensor
Gas generator
Ladebuchse für Telefon
Charging socket
Gas sensor
Generator
Belt buckle lamp
Seat belt lamp
Seat belt switch
Gurtschloss
Sensor, rear
Ros. lamp
sir
orc
Air suspension bag valve
Air bag suspension compressor
Air horn
Bag hook lamp
Fairing lamp
ハザードランプ
エアコン
バッテリー
ヘッドランプ
メインバッテリー
ハイブリッド
燃料高圧ポンプ
Bordnetzspannung
Anhänger-Trennstecker
Spannungsregler
contacteur de frein
retenue de porte
valvola di ritenuta
spanner hook
Tensioner lamp
Motor mount
Rollover valve
Fuel tank sender
`

// advised are names that stay, with what is said about them.
const advised = `
low side      Inverter
low side      Inverter 230 V
low side      Inverter 12 V / 230 V, 1700 W
low side      Wechselrichter
low side      onduleur
low side      omvormer
low side      przetwornica 12/230 V
low side      インバーター
low side      инвертор
low side      Mains charger, 12 V side
low side      Shore charger
low side      Converter 12 V to 230 V
low side      Shore power charger
low side      Landstrom-Ladegerät
low side      Battery charger 230 V
spark         High tension lead
spark         HT lead
spark         spark plug lead
spark         Ignition coil 20 kV
spark         high-voltage ignition lead
spark         fils haute tension
spark         przewody wysokiego napięcia
spark         высоковольтные провода
spark         高圧コード
spark         xenon ballast
restraint     Clock spring
restraint     Wickelfeder
restraint     contacteur tournant
restraint     klokveer
restraint     taśma zwijana
restraint     шлейф руля
restraint     SDM
restraint     ROS
restraint     poduszka
restraint     Impact sensor
`
