using FuelHistory.Client.Api;
using FuelHistory.Client.Screens;
using FuelHistory.Client.Words;

using var connection = Connection.To(new Uri(args[0]));
Tui.Run(connection.Calls, new Look(Colour: true, Signs.Unicode), CancellationToken.None);
return 0;
