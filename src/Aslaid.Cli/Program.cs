using Aslaid.Cli;

return App.Run(args, Shell.OfProcess());
