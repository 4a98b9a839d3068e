using FuelHistory.Client.Plain;

return await new Start(Console.Out, Console.Error, Environment.GetEnvironmentVariable, TimeProvider.System).Run(args);
