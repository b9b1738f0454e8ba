"""Drives the window by the keyboard alone: Tab to a key of the map, Return; waits for the journal's lines."""
import glob, json, os, re, subprocess, sys, time
OUT='/tmp/kb'; ATT='/tmp/kbatt'
os.makedirs(OUT,exist_ok=True); subprocess.run(['rm','-rf',ATT]); os.makedirs(ATT)
disp=':%d'%(100+os.getpid()%800)
env=dict(os.environ,DISPLAY=disp,SWITCHDROP_MAP=OUT+'/map.json'); env.pop('WAYLAND_DISPLAY',None)
if os.path.exists(OUT+'/map.json'): os.remove(OUT+'/map.json')
x=subprocess.Popen(['Xvfb',disp,'-screen','0','1280x800x24','-nolisten','tcp'],stderr=subprocess.DEVNULL); time.sleep(1.5)
wm=subprocess.Popen(['openbox'],env=env,stderr=subprocess.DEVNULL)
p=subprocess.Popen([sys.argv[1],'--attempts',ATT,'--seed','4'],env=env,stderr=subprocess.DEVNULL)
def xd(*a): return subprocess.run(['xdotool',*a],env=env,capture_output=True,text=True).stdout
def m():
    for _ in range(50):
        try: return json.load(open(OUT+'/map.json'))
        except Exception: time.sleep(0.1)
for _ in range(100):
    w=xd('search','--onlyvisible','--pid',str(p.pid)).split()
    if w and os.path.exists(OUT+'/map.json'): break
    time.sleep(0.1)
w=w[-1]; xd('windowactivate',w); xd('windowsize','--sync',w,'1280','800'); time.sleep(1)
# The pointer is out of it: in the corner.
xd('mousemove','1279','799')
presses=0
def to(key):
    global presses
    for _ in range(12):
        d=m(); o=d['#order']; f=d['#focus']
        if f==key: return
        if key not in o: time.sleep(0.15); continue
        i=o.index(key); j=o.index(f) if f in o else -1
        n=i-j
        back=n<0
        presses+=abs(n)
        # The modifier must have been seen before the key: the engine reads it once a frame.
        if back: xd('keydown','shift'); time.sleep(0.15)
        xd('key','--delay','40',*['Tab']*abs(n))
        if back: time.sleep(0.15); xd('keyup','shift')
        for _ in range(12):
            time.sleep(0.06)
            if m()['#focus']==key: return
    raise SystemExit(f'never reached {key}: at {m()["#focus"]}, order {m()["#order"]}')
def do(key):
    global presses
    to(key); presses+=1; xd('key','Return'); time.sleep(0.12)
def lines(): return [l for f in glob.glob(ATT+'/*') for l in open(f).read().splitlines()[2:]]
def awaits(n):
    for _ in range(60):
        if len(lines())>=n: return
        time.sleep(0.1)
    raise SystemExit(f'wanted {n} lines, have {len(lines())}: {lines()[-1:]}')
def shot(n): subprocess.run(['import','-window',w,f'{OUT}/{n}.png'],env=env)
try:
    to('name'); xd('type','--delay','30','K. Board'); do('begin:two-way-stairs'); time.sleep(.5)
    todo=[re.match(r'Did\(ms:\d+,action:(.*)\)$',l).group(1) for l in open(sys.argv[2]).read().splitlines()[2:]]
    at=None; hand='tools'; pred=0; n=0
    def go(l):
        global at
        if at!=l: do('go:'+l); at=l; time.sleep(.2)
    def use(h):
        global hand
        if hand!=h: do('hand:'+h); hand=h
    loc=lambda a: a.split('@')[1] if '@' in a else a.split('.')[0]
    probed=False
    for i,a in enumerate(todo):
        k=re.match(r'\w+',a).group(0); f=dict(re.findall(r'(\w+):"([^"]*)"',a))
        if k=='Identify':
            if f['location']=='east': continue
            go(f['location']); [do('feeds:'+d) for d in re.findall(r'"(board\.\d)"',a)]; do('identify')
        elif k=='Agree': do('todo:agree')
        elif k in('PowerOff','LockOff','Unlock','PowerOn'): go('board'); do(f['device']); do({'PowerOff':'off','LockOff':'lock','Unlock':'unlock','PowerOn':'on'}[k])
        elif k in('RemoveCover','FitCover'): go(f['location']); use('tools'); do('cover')
        elif k=='ProveIndicator':
            if 'TestDead' not in todo[i-1]:
                t=next(x for x in todo[i:] if 'TestDead' in x); go(loc(re.search(r'a:"([^"]*)"',t).group(1))); use('indicator')
            do('prove')
        elif k=='Operate': go('place'); do('switch:'+f['switch'])
        elif k=='TestDead':
            if at=='place': go('east' if 'east' in a else 'west')
            do('next-pair'); do('read')
        elif k=='Continuity':
            go('west'); use('meter')
            do('drop/brown@west'); do('drop/blue@west'); do('read')
        elif k=='MakeUp': go(f['location']); use('tools'); do('make-up:green-yellow')
        elif k=='Mark': go(loc(f['end'])); use('tools'); do(f['end']); do('mark:'+('brown' if 'Brown' in a else 'green-yellow'))
        elif k=='Connect': go(loc(f['end'])); use('tools'); do(f['end']); do(f['terminal'])
        elif k=='Tighten': go(loc(f['terminal'])); use('tools'); do(f['terminal']); do('tighten')
        elif k in('RemoveLamp','FitLamp'): go('lamp'); use('tools'); do('lamp:lamp'); do('lamp')
        elif k=='Predict':
            if at!='prediction': do('go:prediction'); at='prediction'
            for it in re.findall(r'"([^"]*)"',a): do(f'predict:{pred}:{it}')
            do(f'lock-answer:{pred}'); pred+=1
        elif k=='Confirm': do('todo:nobody' if 'Nobody' in a else 'todo:told')
        elif k=='HandIn': do('todo:hand-in')
        n+=1; awaits(n)
        if n in (20,70): shot(f'k{n}')
    time.sleep(.6); shot('sheet'); print('whole exercise by keyboard:',presses,'key presses',n,'actions')
except SystemExit as e:
    shot('stuck'); print(e)
finally:
    p.terminate(); wm.terminate(); x.terminate()
