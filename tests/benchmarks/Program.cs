using FuelHistory.Benchmarks.Simulation;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

string file = Path.Combine(AppContext.BaseDirectory, "model.json");
var model = new CompiledModel(FaultModelReader.Read(File.ReadAllText(file)));
new Scenario(model).Run(args.Length > 1 ? int.Parse(args[1], System.Globalization.CultureInfo.InvariantCulture) : 40);
