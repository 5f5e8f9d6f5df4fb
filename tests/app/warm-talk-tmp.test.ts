import { test } from 'vitest';
import { createWarmDesk, phraseWarm, developerReadiness } from '/work/main/src/app/desks/warm-desk.ts';
const config = { liquids: {
 prebath:{aimC:27,lowC:26,highC:28,volumeMl:600,bottle:1},
 developer:{aimC:41.1,lowC:40.8,highC:41.4,volumeMl:1000,bottle:2,material:'glass' as const},
 bleach:{aimC:38,lowC:36,highC:40,volumeMl:1000,bottle:3}, fixer:{aimC:38,lowC:36,highC:40,volumeMl:1000,bottle:4}},
 tub:{targetC:41.3,waterMl:10000,heaterW:1000}, rate:'ecn-2' as const, developS:180, tank:{volumeMl:600,build:{material:'plastic' as const,tankMassG:200,reelMassG:60,filmMassG:12,heldBackMl:15},standsInTub:false}};
test('talk',()=>{
 const d=createWarmDesk(config); let s=d.initial; let wake:number|null=null;
 const ev=(e:any,m:number,label:string)=>{ const r=d.apply(s,{...e,atMs:m*60000,wallMs:0}); s=JSON.parse(JSON.stringify(r.state)); for(const f of r.effects){ if(f.type==='say') console.log(`${m.toFixed(1)} [${label}] ${f.kind}: ${phraseWarm(f.message)}`); else if(f.type==='wake') wake=f.atMs; else console.log('   fact',JSON.stringify(f.fact)); } };
 const say=(intent:any,m:number)=>ev({type:'intent',intent,heard:{}},m,JSON.stringify(intent));
 const till=(m:number)=>{ while(wake!==null&&wake<=m*60000){ const w=wake; ev({type:'time'},w/60000,'time'); if(wake===w) break; } };
 say({type:'ask-ready'},0);
 say({type:'temperature',of:{kind:'tub'},tempC:36},0);
 for (const [l,t] of [['developer',22.1],['bleach',19.5],['fixer',20],['prebath',21]] as const) say({type:'temperature',of:l,tempC:t},0.2);
 say({type:'ask-ready'},0.5);
 say({type:'temperature',of:'room',tempC:41},1);
 say({type:'confirm'},1.1);
 say({type:'temperature',of:'fixer',tempC:410},2);
 say({type:'temperature',of:'fixer',tempC:-3},2);
 say({type:'confirm'},2);say({type:'cancel'},2);
 say({type:'temperature',of:'developer',tempC:106},2.5);say({type:'cancel'},2.5);
 say({type:'temperature',of:{kind:'tub'},tempC:38},3); 
 say({type:'temperature',of:'developer',tempC:25.9},3);say({type:'temperature',of:'fixer',tempC:25.3},3);say({type:'temperature',of:'bleach',tempC:24.9},3);say({type:'temperature',of:'prebath',tempC:27},3);
 say({type:'temperature',of:'developer',tempC:29.2},6);say({type:'temperature',of:'fixer',tempC:29.3},6);say({type:'temperature',of:'bleach',tempC:28.9},6);
 say({type:'temperature',of:{kind:'tub'},tempC:39.9},6); 
 say({type:'ask-ready'},6.5); say({type:'ask-ready',liquid:'developer'},7); say({type:'ask-temperature',of:'fixer'},7);
 say({type:'vessel-moved',of:'prebath',into:false},7.1);
 till(20);
 say({type:'temperature',of:'fixer',tempC:24.9},20); say({type:'cancel'},20);
 console.log(developerReadiness(s,config,20*60000)?.words);
 say({type:'temperature',of:{kind:'tub'},tempC:41.3},20.1);
 say({type:'temperature',of:'developer',tempC:38.1},20.2);
 till(90);
 say({type:'ask-ready'},90); say({type:'ask-ready',liquid:'developer'},90);
 say({type:'heater',on:false},91); till(200);
 say({type:'tub-set',tempC:39},200);
 say({type:'ask-blend',tempC:38},201); say({type:'temperature',of:{kind:'tap'},tempC:52},201); say({type:'temperature',of:'cold',tempC:12},201); say({type:'ask-blend',tempC:38,volumeMl:2000},201);say({type:'ask-blend',tempC:38},201);
 console.log(JSON.stringify(s).length);
});
