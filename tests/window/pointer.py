# Turns an attempt into steps for the window script; see DEVELOPERS.md.
import re,sys
lines=open(sys.argv[1] if len(sys.argv)>1 else 'assets/sample.attempt.ron').read().splitlines()[2:]
att='/tmp/att/*.attempt.ron'
out=[]
def step(*a): out.append(' '.join(a))
def click(k,w=0.12): step('at',k); step('click'); step('wait',str(w))
cur=[None]; hand=['tools']
def go(loc):
    if cur[0]!=loc: click('go:'+loc,0.3); cur[0]=loc
def use(h):
    if hand[0]!=h: click('hand:'+h,0.2); hand[0]=h
def loc_of(addr):
    return addr.split('@')[1] if '@' in addr else addr.split('.')[0]
step('wait 3'); click('name'); step('type A. Thornbury'); click('set'); click('begin:two-way-stairs',0.6)
step('shot a-place')
pred=0; sel=[None]; n=0
for i,l in enumerate(lines):
    m=re.match(r'Did\(ms:\d+,action:(.*)\)$',l); a=m.group(1)
    kind=re.match(r'\w+',a).group(0); f=dict(re.findall(r'(\w+):"([^"]*)"',a))
    if kind=='Identify' and f['location']=='east': continue
    if kind=='Identify':
        go(f['location'])
        for d in re.findall(r'"(board\.\d)"',a): click('feeds:'+d)
        click('identify')
    elif kind=='Agree': click('todo:agree')
    elif kind in('PowerOff','LockOff','Unlock','PowerOn'):
        go('board'); click(f['device']); click({'PowerOff':'off','LockOff':'lock','Unlock':'unlock','PowerOn':'on'}[kind])
        if kind=='LockOff': step('shot b-board')
    elif kind in('RemoveCover','FitCover'): go(f['location']); use('tools'); click('cover')
    elif kind=='ProveIndicator':
        nxt=[x for x in lines[i:] if 'TestDead' in x]
        if nxt and not (i and 'TestDead' in lines[i-1]):
            go(loc_of(re.search(r'a:"([^"]*)"',nxt[0]).group(1)))
            use('indicator')
        click('prove')
    elif kind=='Operate':
        click('go:place',0.3); cur[0]='place'; click('switch:'+f['switch'])
    elif kind=='TestDead':
        t=f['a']; 
        if cur[0]=='place' : go('east' if 'east' in f['a']+f['b'] else 'west')
        n+=1
        if n==3: step('shot c-probes')
        click('next-pair'); click('read')
    elif kind=='Continuity':
        go('west'); use('meter'); click('drop/brown@west'); click('drop/blue@west'); click('read'); step('shot e-meter')
    elif kind=='MakeUp': go(f['location']); use('tools'); click('make-up:green-yellow')
    elif kind=='Mark':
        go(loc_of(f['end'])); use('tools'); step('wait 0.3'); click(f['end']); sel[0]=f['end']
        c='brown' if 'Brown' in a else 'green-yellow'
        click('mark:'+c)
    elif kind=='Connect':
        go(loc_of(f['end'])); use('tools')
        step('wait 0.35'); step('drag',f['end'],f['terminal']); step('wait 0.25')
        n+=1
        if f['end']=='link/grey@west': step('shot d-wired')
    elif kind=='Tighten': go(loc_of(f['terminal'])); use('tools'); step('wait 0.2'); click(f['terminal'],0.25); click('tighten')
    elif kind in('RemoveLamp','FitLamp'): go('lamp'); use('tools'); click('lamp:lamp'); click('lamp')
    elif kind=='Predict':
        if cur[0]!='prediction': click('go:prediction',0.3); cur[0]='prediction'
        for it in re.findall(r'"([^"]*)"',a): click(f'predict:{pred}:{it}')
        if pred==1: step('shot f-prediction')
        click(f'lock-answer:{pred}'); pred+=1
    elif kind=='Confirm': click('todo:nobody' if 'Nobody' in a else 'todo:told')
    elif kind=='HandIn':
        step('shot g-lit'); click('todo:hand-in',0.6); step('shot h-sheet')
    a=a.replace('Continuity(a:"drop/brown@west",b:"drop/blue@west")','Continuity(a:"west.L1",b:"west.L2")')
    step('await',att,a.replace(' ',''),'5') if ' ' not in a else step('await',att,a.split(' ')[0],'5')
print('\n'.join(out))
